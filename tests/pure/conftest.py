"""Takes no slow machine for a fault: tests run side by side, and share it with others."""

from hypothesis import settings

settings.register_profile("side by side", deadline=None)
settings.load_profile("side by side")
