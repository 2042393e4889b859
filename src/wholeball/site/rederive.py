"""Derives every season's results from its facts again, and says what they come to."""


def digests_of_results() -> dict[str, str]:
    """Return a digest of the results of each season, by organisation and season."""
    return {}


def differences(before: dict[str, str]) -> list[str]:
    """Return the seasons that come to something else than before, or are not there."""
    now = digests_of_results()
    return sorted(
        name for name in before.keys() | now.keys() if before.get(name) != now.get(name)
    )
