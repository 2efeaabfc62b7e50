"""The page over plain HTTP that offers the server's own authority to phones.

It holds the certificate and the steps to install it, and nothing else: a phone that
does not know the authority yet can open no other page without being frightened. A phone
that knows it already goes straight on. The pairing code stands behind the # of the
address, which browsers never send; the page hands it on.
"""

import html
from collections.abc import Iterator
from urllib.parse import urlsplit

from cryptography import x509
from cryptography.hazmat.primitives.serialization import Encoding
from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response
from starlette.routing import Route

from api.language import Language
from fishmeasure.base.words import voice, wording

CERTIFICATE = "/fishmeasure.crt"
# The steps for phones: that of trust from support.apple.com/102390 (seen), the others
# from memory; phones' makers name and place them otherwise from year to year.
PHONES = {
    "iphone": ("load", "profile", "trust", "back"),
    "android": ("load", "settings", "choose", "back"),
}
_SCRIPT = """
const { page } = document.body.dataset;
const code = /^#\\/pair\\/(\\d{8})$/.exec(location.hash);
const target = page + (code ? location.hash : "");
for (const link of document.querySelectorAll(".on")) link.href = target;
// A phone that trusts the server already needs none of this.
fetch(`${page}health`, { mode: "no-cors", cache: "no-store" }).then(
  () => location.replace(target),
  () => {},
);
"""
_STYLE = """
:root { color-scheme: light dark; font: 1.06rem/1.5 system-ui, sans-serif }
body { margin: 0 auto; padding: 16px; max-width: 34rem }
h1 { font-size: 1.4rem } h2 { font-size: 1.15rem; margin-top: 28px }
a { display: block; margin: 16px 0; padding: 14px; border-radius: 10px;
  text-align: center; background: #0b4f4a; color: #fff; font-weight: 650;
  text-decoration: none }
a.on { background: none; color: inherit; border: 2px solid }
li { margin: 8px 0 } code { overflow-wrap: anywhere }
"""


def start_app(page: str, authority: x509.Certificate) -> Starlette:
    """Return the application.

    Parameters
    ----------
    page
        Address of the server's page, with "https" and a "/" at its end.
    authority
        To be installed.
    """
    there = urlsplit(page)
    headers = {
        "Content-Security-Policy": (
            "default-src 'none'; script-src 'self'; style-src 'self'; "
            f"connect-src {there.scheme}://{there.netloc}; base-uri 'none'; "
            "form-action 'none'; frame-ancestors 'none'"
        ),
        "X-Content-Type-Options": "nosniff",
        "Referrer-Policy": "no-referrer",
        "Cache-Control": "no-store",
    }
    content = authority.public_bytes(Encoding.DER)

    def steps(_: Request) -> Response:
        return HTMLResponse(_html(page), headers=headers)

    def certificate(_: Request) -> Response:
        named = f'attachment; filename="{CERTIFICATE[1:]}"'
        told = {**headers, "Content-Disposition": named}
        return Response(content, media_type="application/x-x509-ca-cert", headers=told)

    def script(_: Request) -> Response:
        return Response(_SCRIPT, media_type="text/javascript", headers=headers)

    def style(_: Request) -> Response:
        return Response(_STYLE, media_type="text/css", headers=headers)

    return Starlette(
        routes=[
            Route("/", steps),
            Route(CERTIFICATE, certificate),
            Route("/start.js", script),
            Route("/start.css", style),
        ],
        middleware=[Middleware(Language)],
    )


def _html(page: str) -> str:
    return "\n".join(_lines(html.escape(page, quote=True)))


def _lines(page: str) -> Iterator[str]:
    def said(case: str) -> str:
        return html.escape(wording("start-page", case=case))

    yield f'<!doctype html><html lang="{html.escape(voice().language)}"><head>'
    yield '<meta charset="utf-8"><link rel="stylesheet" href="/start.css">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield f"<title>{said('title')}</title></head>"
    yield f'<body data-page="{page}"><h1>{said("title")}</h1>'
    yield f"<p>{said('why')}</p>"
    yield f'<a href="{CERTIFICATE}">{said("certificate")}</a>'
    for phone, steps in PHONES.items():
        yield f"<h2>{said(phone)}</h2><ol>"
        for step in steps:
            yield f"<li>{said(f'{phone}-{step}')}</li>"
        yield "</ol>"
    yield f'<a class="on" href="{page}">{said("on")}</a>'
    yield f"<p>{said('what')}</p>"
    yield '<script src="/start.js"></script></body></html>'
