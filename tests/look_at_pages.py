"""Renders pages in a browser, so that a person can look at them; run by hand, not by pytest.

    python tests/look_at_pages.py --into FOLDER [--axe axe.min.js] plan.html card.html ...

Needs playwright, pypdf, a Chromium (--browser PATH) and, for rules on access, the file
axe.min.js of the npm package axe-core. Writes a picture at 1280 and 412 dots of width and a PDF
for A4 and Letter of each page. Ends with 1 if a page fetches anything, is wider than its screen,
breaks a rule, or if a printed page lacks the first words of its head.
"""

import argparse
import sys
from pathlib import Path

WIDTHS = (1280, 412)
PAPERS = ("A4", "Letter")
_LETTERS = 30  # of the head that every printed page must show


def main():
    """Look at every page; the number of faults decides the exit code."""
    asked = _arguments()
    from playwright.sync_api import sync_playwright

    faults = []
    with sync_playwright() as player:
        browser = player.chromium.launch(
            executable_path=asked.browser, args=["--no-sandbox", "--disable-gpu"]
        )
        for path in asked.pages:
            found = [*_screens(browser, path, asked), *_papers(browser, path, asked.into)]
            faults += [f"{path.name}: {fault}" for fault in found]
        browser.close()
    sys.stdout.write("\n".join(faults or ["no faults found; now look at the pictures"]) + "\n")
    return 1 if faults else 0


def _arguments():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--into", type=Path, required=True)
    parser.add_argument("--axe", type=Path)
    parser.add_argument("--browser", default="/usr/bin/chromium")
    parser.add_argument("pages", type=Path, nargs="+")
    return parser.parse_args()


def _opened(browser, path, width, requests):
    context = browser.new_context(viewport={"width": width, "height": 900}, bypass_csp=True)
    page = context.new_page()
    page.on("request", lambda request: requests.append(request.url))
    page.goto(path.resolve().as_uri())
    return page


def _screens(browser, path, asked):
    for width in WIDTHS:
        requests = []
        page = _opened(browser, path, width, requests)
        page.screenshot(path=asked.into / f"{path.stem}-{width}.png", full_page=True)
        if len(requests) > 1:
            yield f"fetches {requests[1:]}"
        root = "document.documentElement"
        if page.evaluate(f"{root}.scrollWidth > {root}.clientWidth"):
            yield f"wider than a screen of {width}"
        if asked.axe:
            page.evaluate(asked.axe.read_text(encoding="utf-8"))
            for rule in page.evaluate("axe.run()")["violations"]:
                yield f"{rule['id']} at {width}: {rule['nodes'][0]['html'][:100]}"
        page.close()


def _papers(browser, path, into):
    from pypdf import PdfReader

    for paper in PAPERS:
        page = _opened(browser, path, WIDTHS[0], [])
        head = " ".join(page.inner_text("header").split())[:_LETTERS]
        target = into / f"{path.stem}-{paper}.pdf"
        page.pdf(path=target, format=paper)
        page.close()
        for number, printed in enumerate(PdfReader(target).pages, 1):
            words = " ".join(printed.extract_text().split())
            if head.replace(" ", "") not in words.replace(" ", ""):
                yield f"page {number} on {paper} lacks its head"


if __name__ == "__main__":
    sys.exit(main())
