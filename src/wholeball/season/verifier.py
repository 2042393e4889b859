"""Checks a published draw with Python alone, as in: python verifier.py draw.json.

The seed is SHA-256(secret|public:public text). Number i is HMAC-SHA256(seed, label|i). The sorted
participants are shuffled from the last place down; numbers that would favour some places
are passed over. Compare the commitment with the one that was published before the draw.
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
        chosen = number % (last + 1)
        order[last], order[chosen] = order[chosen], order[last]
    return order


def wrong(published: dict[str, Any]) -> list[str]:
    before, after = published["commitment"], published["draw"]
    names, text = after["participants"], f"{after['secret']}|public:{after['public']}"
    order = shuffled(hashlib.sha256(text.encode()).digest(), after["label"], names)
    checks = {
        "label": after["label"] == before["label"],
        "participants": names == before["participants"] == sorted(set(names)),
        "participants_hash": before["participants_hash"] == sha256("\n".join(names)),
        "secret": sha256(after["secret"]) == before["commit"],
        "seed": after["seed"] == sha256(text),
        "order": after["order"] == order,
    }
    return [f"WRONG: {name} does not agree." for name, holds in checks.items() if not holds]


def main() -> int:
    published = json.loads(Path(sys.argv[1]).read_text(encoding="utf-8"))
    found = wrong(published)
    lines = found or ["The draw is as committed:", *published["draw"]["order"]]
    before = published["commitment"]
    lines += [f"Commit: {before['commit']}", f"Participants: {before['participants_hash']}"]
    sys.stdout.write("\n".join(lines) + "\n")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
