// Keeps ticks and values of a sheet on this device, where the browser can. The sheet is whole without it.
(function () {
  "use strict";
  var sheet = document.querySelector("[data-sheet]");
  if (!sheet) { return; }

  // What is folded is printed all the same, and folded again afterwards.
  var folded = [];
  window.addEventListener("beforeprint", function () {
    folded = Array.prototype.slice.call(sheet.querySelectorAll("details:not([open])"));
    folded.forEach(function (one) { one.open = true; });
  });
  window.addEventListener("afterprint", function () {
    folded.forEach(function (one) { one.open = false; });
  });

  var key = "firstfill/" + sheet.getAttribute("data-sheet");
  var said = sheet.querySelector(".keeps");
  var clear = sheet.querySelector(".clear");
  var fields = Array.prototype.slice.call(sheet.querySelectorAll("[data-keep]"));

  function works() {
    try {
      var trial = key + "/trial";
      localStorage.setItem(trial, "1");
      var read = localStorage.getItem(trial);
      localStorage.removeItem(trial);
      return read === "1";
    } catch (error) {
      return false;
    }
  }

  function read() {
    try {
      return JSON.parse(localStorage.getItem(key) || "{}") || {};
    } catch (error) {
      return {};
    }
  }

  var keeps = works();
  if (said) {
    said.textContent = said.getAttribute(keeps ? "data-yes" : "data-no");
    said.hidden = false;
  }
  if (!keeps) { return; }

  var last = sheet.querySelector(".jumps .at");

  // Leads back to where something was ticked or written last.
  function lead(name) {
    var field = fields.find(function (one) { return one.getAttribute("data-keep") === name; });
    var place = field && field.closest("[id]");
    if (!last || !place) { return; }
    last.setAttribute("href", "#" + place.id);
    last.hidden = false;
  }

  var kept = read();
  lead(kept.last);
  fields.forEach(function (field) {
    var name = field.getAttribute("data-keep");
    var box = field.type === "checkbox";
    if (Object.prototype.hasOwnProperty.call(kept, name)) {
      if (box) { field.checked = kept[name] === true; } else { field.value = String(kept[name]); }
    }
    field.addEventListener(box ? "change" : "input", function () {
      var now = read();
      now[name] = box ? field.checked : field.value;
      now.last = name;
      lead(name);
      try {
        localStorage.setItem(key, JSON.stringify(now));
      } catch (error) {
        said.textContent = said.getAttribute("data-no");
      }
    });
  });
  if (clear) {
    clear.hidden = false;
    clear.addEventListener("click", function () {
      if (!window.confirm(clear.getAttribute("data-sure"))) { return; }
      localStorage.removeItem(key);
      if (last) { last.hidden = true; }
      fields.forEach(function (field) {
        if (field.type === "checkbox") { field.checked = false; } else { field.value = ""; }
      });
    });
  }
})();
