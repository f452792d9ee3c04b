"""What Python worked out for the scripts of the site, as scripts: a page opened from a stick may load a script, but may not fetch a file."""

from __future__ import annotations

import json


def assigned(name: str, value: object) -> bytes:
    """A script that keeps a JSON value as `window.twayblade.NAME`."""
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"))
    return f"window.twayblade=window.twayblade||{{}};window.twayblade.{name}={text};\n".encode()
