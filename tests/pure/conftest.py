"""Takes no slow machine for a fault: tests run side by side, and share it with others."""

from hypothesis import settings

from cases.spared import spare

settings.register_profile("side by side", deadline=None)
settings.load_profile("side by side")


def pytest_collection_finish() -> None:
    """Begin the tests with a collector that has less to do."""
    spare()
