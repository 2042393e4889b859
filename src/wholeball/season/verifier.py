"""Checks a published draw with Python alone, as in: python verifier.py draw.json.

The seed is SHA-256(secret|public:text), number i HMAC-SHA256(seed, label|i). Sorted names are
shuffled from the last place down, unfair numbers passed over. Compare with what was told before.
"""

import hashlib
import hmac
import json
import sys
from itertools import count
from pathlib import Path
from typing import Any


def sha256(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()


def shuffled(seed: bytes, label: str, names: list[str]) -> list[str]:
    order, counter = list(names), count()
    for last in range(len(order) - 1, 0, -1):
        number = 2**256
        while number >= 2**256 - 2**256 % (last + 1):
            message = f"{label}|{next(counter)}".encode()
            number = int.from_bytes(hmac.new(seed, message, hashlib.sha256).digest(), "big")
        at = number % (last + 1)
        order[last], order[at] = order[at], order[last]
    return order


def wrong(published: dict[str, Any]) -> list[str]:
    before, after = published["commitment"], published["draw"]
    names, text = after["participants"], f"{after['secret']}|public:{after['public']}"
    checks = {
        "label": after["label"] == before["label"],
        "participants": names == before["participants"] == sorted(set(names)),
        "participants_hash": before["participants_hash"] == sha256("\n".join(names)),
        "secret": sha256(after["secret"]) == before["commit"],
        "seed": after["seed"] == sha256(text),
        "order": after["order"] == shuffled(bytes.fromhex(sha256(text)), after["label"], names),
    }
    return [f"WRONG: {name} does not agree." for name, holds in checks.items() if not holds]


def main() -> str | int:
    try:
        published = json.loads(Path(sys.argv[1]).read_text(encoding="utf-8"))
        found, before = wrong(published), published["commitment"]
    except (OSError, ValueError, LookupError, TypeError, AttributeError, RecursionError):
        return "Give a draw.json as published: python verifier.py draw.json"
    lines = found or ["The draw is as committed:", *published["draw"]["order"]]
    lines += [f"Commit: {before['commit']}", f"Participants: {before['participants_hash']}"]
    sys.stdout.write("\n".join(lines) + "\n")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
