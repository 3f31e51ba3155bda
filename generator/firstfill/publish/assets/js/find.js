// The search field of the start page: every word typed must stand in a row. Without script the whole list is shown.
(function () {
  "use strict";
  var field = document.querySelector("[data-find]");
  if (!field) { return; }
  var rows = Array.prototype.slice.call(
    document.getElementById(field.getAttribute("data-find")).querySelectorAll("[data-words]")
  );
  var none = document.querySelector(".none");
  field.closest("[hidden]").hidden = false;
  field.addEventListener("input", function () {
    var words = field.value.toLowerCase().split(/\s+/);
    var left = rows.filter(function (row) {
      var said = row.getAttribute("data-words");
      row.hidden = !words.every(function (word) { return said.indexOf(word) >= 0; });
      return !row.hidden;
    });
    none.hidden = left.length > 0;
  });
})();
