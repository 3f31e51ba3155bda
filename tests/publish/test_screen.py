"""The phone file and the pages of the site in a real browser, without a network."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from firstfill.publish.pages import Contents, sheet_folder, write_pages
from firstfill.publish.single_file import html
from firstfill.publish.site import build
from publish import sample
from publish.test_single_file import contrast

pytestmark = pytest.mark.browser

WIDTHS = (320, 390, 1280)


def contents() -> Contents:
    """Two sheets, one of them stopped, and no facts."""
    usable, stopped = sample.sheet("caution"), sample.sheet("stop", "Letter")
    other = replace(stopped.identity, job="dray-mill-gate", number="LF-26-0198", site="Dray mill gate", serial="")
    return Contents((usable, replace(stopped, identity=other)), None, sample.read_labels())


@pytest.fixture(scope="module")
def places(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """Everything that can be opened from a disk."""
    to = tmp_path_factory.mktemp("pages")
    for name in ("site", "plain"):
        (to / name).mkdir()
    build(contents(), to / "site")
    write_pages(contents(), to / "plain")
    found: dict[str, Path] = {}
    for sheet in contents().sheets:
        job = sheet.identity.job
        for way in ("site", "plain"):
            alone = to / way / sheet_folder(job) / f"{job}.html"
            alone.parent.mkdir(parents=True)
            alone.write_text(html(sheet), encoding="utf-8")
        found[f"phone file of {job}"] = alone
        found[f"page of {job}"] = to / "site/jobs" / f"{job}.html"
        found[f"plain page of {job}"] = to / "plain/jobs" / f"{job}.html"
    found |= {
        "start": to / "site/index.html",
        "plain start": to / "plain/index.html",
        "sources": to / "site/sources.html",
    }
    return found


NAMES = [
    *(
        f"{kind} of {job}"
        for kind in ("phone file", "page", "plain page")
        for job in ("fennwick-boat-hall", "dray-mill-gate")
    ),
    "start",
    "plain start",
    "sources",
]


class Tab:
    """A page opened from the disk with the network off; what it asked for and what went wrong is kept."""

    def __init__(self, browser: Any, width: int) -> None:
        self.context = browser.new_context(viewport={"width": width, "height": 800}, offline=True)
        self.asked: list[str] = []
        self.wrong: list[str] = []
        self.page = self.context.new_page()
        self.page.on("request", lambda request: self.asked.append(request.url))
        self.page.on("requestfailed", lambda request: self.wrong.append(request.url))
        self.page.on("pageerror", lambda error: self.wrong.append(str(error)))
        self.page.on("console", lambda line: self.wrong.append(line.text) if line.type == "error" else None)

    def go(self, place: Path) -> Any:
        self.page.goto(place.as_uri())
        return self.page


@pytest.fixture
def tab(browser: Any) -> Iterator[Any]:
    opened: list[Tab] = []

    def make(width: int = 390) -> Tab:
        opened.append(Tab(browser, width))
        return opened[-1]

    yield make
    for one in opened:
        one.context.close()


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("name", NAMES)
def test_fits_its_width_and_asks_nobody(places: dict[str, Path], tab: Any, name: str, width: int) -> None:
    opened = tab(width)
    page = opened.go(places[name])
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert [address for address in opened.asked if not address.startswith(("file:", "data:"))] == []
    assert opened.wrong == []


_TARGETS = ", ".join(
    f".firstfill {one}"
    for one in (
        "label.tick",
        "input[type=text]",
        "button",
        ".files a",
        ".links a",
        ".contents a",
        ".jumps a",
        ".blocks a",
        ".trouble td a",
        ".ifnot a",
        "summary",
        ".entries a",
    )
)
_SIZES = f"""() => [...document.querySelectorAll('{_TARGETS}')]
    .filter(e => e.offsetParent !== null)
    .map(e => [e.className || e.tagName, e.getBoundingClientRect().width, e.getBoundingClientRect().height])"""


@pytest.mark.parametrize("name", NAMES)
def test_targets_are_large_enough_for_gloves(places: dict[str, Path], tab: Any, name: str) -> None:
    page = tab(390).go(places[name])
    sizes = page.evaluate(_SIZES)
    # WCAG 2.2, 2.5.5: 44 CSS px.
    assert [size for size in sizes if size[1] < 44 or size[2] < 44] == []


_COLOURS = """() => {
  const hex = said => {
    const parts = said.match(/[\\d.]+/g).map(Number);
    return [('#' + parts.slice(0, 3).map(n => Math.round(n).toString(16).padStart(2, '0')).join('')),
            parts.length > 3 ? parts[3] : 1];
  };
  const ground = e => {
    for (let at = e; at; at = at.parentElement) {
      const [colour, opacity] = hex(getComputedStyle(at).backgroundColor);
      if (opacity > 0.99) { return colour; }
    }
    return '#ffffff';
  };
  return [...document.querySelectorAll('.firstfill *')]
    .filter(e => e.offsetParent !== null && [...e.childNodes].some(n => n.nodeType === 3 && n.textContent.trim()))
    .map(e => [e.tagName + '.' + e.className, hex(getComputedStyle(e).color)[0], ground(e)]);
}"""


@pytest.mark.parametrize("name", NAMES)
def test_text_stands_out(places: dict[str, Path], tab: Any, name: str) -> None:
    found = {tuple(each) for each in tab(390).go(places[name]).evaluate(_COLOURS)}
    assert found
    # WCAG 2.2, 1.4.3.
    assert [each for each in found if contrast(each[1], each[2]) < 4.5] == []


def test_readable_without_script(places: dict[str, Path], browser: Any) -> None:
    context = browser.new_context(viewport={"width": 390, "height": 800}, offline=True, java_script_enabled=False)
    page = context.new_page()
    for name in ("phone file of fennwick-boat-hall", "start"):
        page.goto(places[name].as_uri())
        text = page.inner_text("body")
        for said in (
            ("Hold S2 (close) until the first of the three limits.", "at most 26 bar")
            if "phone" in name
            else ("LF-26-0199", "LF-26-0198")
        ):
            assert said in text.replace("\xa0", " ")
    context.close()


def test_ticks_and_values_outlast_a_reload_and_can_be_cleared(places: dict[str, Path], tab: Any) -> None:
    opened = tab(390)
    page = opened.go(places["phone file of fennwick-boat-hall"])
    labels = sample.read_labels()
    assert page.inner_text(".keeps") == labels["keeps yes"]
    page.check("[data-keep='step.bleed.pour']")
    page.fill("[data-keep='box.bleed.pour.1']", "3.5")
    page.reload()
    assert page.is_checked("[data-keep='step.bleed.pour']")
    assert page.input_value("[data-keep='box.bleed.pour.1']") == "3.5"
    # Another sheet of the same site shares the storage of the disk, but not the ticks.
    other = opened.go(places["phone file of dray-mill-gate"])
    assert not other.is_checked("[data-keep='step.bleed.pour']")
    page = opened.go(places["phone file of fennwick-boat-hall"])
    page.once("dialog", lambda dialog: dialog.accept())
    page.click("button.clear")
    assert not page.is_checked("[data-keep='step.bleed.pour']")
    page.reload()
    assert page.input_value("[data-keep='box.bleed.pour.1']") == ""


def seen(page: Any, place: str) -> bool:
    """Say whether the top of a place stands on the screen, below what always stays there."""
    return bool(
        page.evaluate(
            """place => {
              const top = document.querySelector(place).getBoundingClientRect().top;
              return top >= document.querySelector(".bar").getBoundingClientRect().bottom - 1 && top < innerHeight;
            }""",
            place,
        )
    )


@pytest.mark.parametrize("width", WIDTHS)
def test_fingerprint_and_site_stand_whole_in_the_bar(places: dict[str, Path], tab: Any, width: int) -> None:
    page = tab(width).go(places["phone file of fennwick-boat-hall"])
    for place in (".fingerprint", ".at-site"):
        cut = page.evaluate(
            """place => {
              const box = document.querySelector(`.bar ${place}`);
              const at = box.getBoundingClientRect();
              return box.scrollWidth > Math.ceil(at.width) || at.right > innerWidth || at.left < 0;
            }""",
            place,
        )
        assert not cut, place


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("name", ["phone file of fennwick-boat-hall", "page of fennwick-boat-hall"])
def test_a_block_and_the_table_of_troubles_are_three_taps_away(
    places: dict[str, Path], tab: Any, name: str, width: int
) -> None:
    page = tab(width).go(places[name])
    phase = next(phase for phase in sample.sheet("caution").phases if len(phase.blocks) > 1)
    page.evaluate("scrollTo(0, document.body.scrollHeight)")
    page.click(".jumps a >> nth=0")
    assert seen(page, "#contents")
    page.click(f".contents a >> text='{phase.number} {phase.title}'")
    last = page.locator(f"#phase-{phase.id} > .blocks a").last
    place = last.get_attribute("href")
    last.click()
    assert seen(page, place)
    page.click(f".jumps a >> text='{sample.read_labels()['trouble']}'")
    assert seen(page, "#trouble")
    # From a sign in the table to the step it sends to.
    page.locator("#trouble td a").first.click()
    assert seen(page, page.evaluate("location.hash"))


def test_after_a_reload_a_link_leads_to_where_one_was(places: dict[str, Path], tab: Any) -> None:
    opened = tab(390)
    page = opened.go(places["phone file of fennwick-boat-hall"])
    assert not page.is_visible(".jumps .at")
    page.check("[data-keep='step.bleed.pour']")
    step = page.evaluate("document.querySelector(\"[data-keep='step.bleed.pour']\").closest('.step').id")
    page = opened.go(places["phone file of dray-mill-gate"])
    assert not page.is_visible(".jumps .at")
    page = opened.go(places["phone file of fennwick-boat-hall"])
    page.click(".jumps .at")
    assert seen(page, f"#{step}")
    page.once("dialog", lambda dialog: dialog.accept())
    page.click("button.clear")
    assert not page.is_visible(".jumps .at")


def test_the_bar_is_two_lines_at_most_and_checks_and_working_are_folded(places: dict[str, Path], tab: Any) -> None:
    page = tab(320).go(places["phone file of fennwick-boat-hall"])
    line = page.locator(".bar .which").bounding_box()
    # Number, fingerprint and mark in one, the site in the next: on the narrowest phone nothing is cut off.
    assert line["height"] < 3 * 17 * 1.45
    folded = page.locator(".annex details")
    assert folded.count() == 2
    assert not page.locator(".annex .worked").first.is_visible()
    folded.last.locator("summary").click()
    assert page.locator(".annex .worked").first.is_visible()


def test_what_is_read_again_is_written_in_lines_of_its_own(places: dict[str, Path], tab: Any) -> None:
    opened = tab(390)
    page = opened.go(places["phone file of fennwick-boat-hall"])
    fields = page.locator("#read-again input")
    assert fields.count() == 12 * 4
    assert not fields.first.is_visible()
    page.locator("#read-again summary").click()
    fields.first.fill("7.3")
    page.reload()
    assert page.locator("#read-again input").first.input_value() == "7.3"


def test_printed_what_is_folded_is_there(places: dict[str, Path], tab: Any) -> None:
    page = tab(390).go(places["phone file of fennwick-boat-hall"])
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    assert page.locator(".annex .worked").first.is_visible()
    page.evaluate("dispatchEvent(new Event('afterprint'))")
    assert not page.locator(".annex .worked").first.is_visible()


def test_says_so_where_nothing_can_be_kept(places: dict[str, Path], browser: Any) -> None:
    context = browser.new_context(offline=True)
    context.add_init_script("Object.defineProperty(window, 'localStorage', {get() { throw new Error('refused'); }})")
    page = context.new_page()
    page.goto(places["phone file of fennwick-boat-hall"].as_uri())
    assert page.inner_text(".keeps") == sample.read_labels()["keeps no"]
    page.check("[data-keep='step.bleed.pour']")
    context.close()


@pytest.mark.parametrize("name", ["start", "plain start"])
def test_a_dealer_finds_a_sheet_in_three_clicks(places: dict[str, Path], tab: Any, name: str) -> None:
    page = tab(1280).go(places[name])
    rows = page.locator("#jobs tbody tr")
    assert rows.count() == 2
    page.fill("#find", "TU-0417 boat")
    assert [row.is_visible() for row in rows.all()] == [True, False]
    page.fill("#find", "no such door")
    assert page.is_visible(".none")
    page.fill("#find", "dray")
    page.click("#jobs tbody tr:visible th a")
    assert "Dray mill gate" in page.inner_text("h2.site")
    with page.expect_navigation():
        page.click(".firstfill .files a >> text='Phone file (one HTML file)'")
    assert page.url.endswith("/sheets/dray-mill-gate/dray-mill-gate.html")


@pytest.mark.parametrize("name", ["phone file of dray-mill-gate", "page of dray-mill-gate"])
def test_printed_it_hides_no_step_message_or_value(places: dict[str, Path], tab: Any, name: str) -> None:
    page = tab(1280).go(places[name])
    parts = ".step, .safety, .box, .value, .unusable, .target"
    count = f"[...document.querySelectorAll('{parts}')].filter(e => e.offsetParent !== null).length"
    shown = page.evaluate(count)
    page.emulate_media(media="print")
    assert page.evaluate(count) == shown > 50


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("name", ["start", "plain start"])
def test_a_sheet_is_found_by_its_place(places: dict[str, Path], tab: Any, name: str, width: int) -> None:
    page = tab(width).go(places[name])
    rows = page.locator("[data-words]")
    assert rows.count() == len(contents().sheets)
    page.locator("[data-find]").fill("Dray")
    assert [row for row in rows.all() if row.is_visible()] != []
    assert all("Dray mill gate" in row.inner_text() for row in rows.all() if row.is_visible())
    assert not page.locator(".none").is_visible()
    page.locator("[data-find]").fill("nowhere at all")
    assert [row for row in rows.all() if row.is_visible()] == []
    assert page.locator(".none").is_visible()
