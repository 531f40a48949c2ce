"""A browser without script: keeps cookies, reads forms, posts them."""

import http.cookiejar
import re
import urllib.error
import urllib.parse
import urllib.request


class Page:
    """What came back, and the forms in it."""

    def __init__(self, url: str, text: str) -> None:
        self.url, self.text = url, text

    @property
    def path(self) -> str:
        return urllib.parse.urlsplit(self.url).path

    def hidden(self, name: str) -> str:
        found = re.search(rf'name="{name}"[^>]*value="([^"]*)"', self.text)
        assert found, f"{self.path} has no field {name}"
        return found[1]

    def values(self, name: str) -> list[str]:
        return re.findall(rf'name="{name}"[^>]*value="([^"]*)"', self.text)


class Browser:
    """One visitor of one address."""

    def __init__(self, address: str) -> None:
        self.address = address
        self.opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(http.cookiejar.CookieJar()))

    def get(self, path: str) -> Page:
        return self._open(urllib.request.Request(self.address + path))

    def post(self, path: str, token: str, **form: str) -> Page:
        data = urllib.parse.urlencode({"csrf_token": token, **form}).encode()
        return self._open(urllib.request.Request(self.address + path, data=data, method="POST"))

    def _open(self, request: urllib.request.Request) -> Page:
        with self.opener.open(request, timeout=20) as answer:
            return Page(answer.url, answer.read().decode())
