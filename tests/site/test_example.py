"""The example that the site offers is files of the package, and the same as the one to read."""

import filecmp
from pathlib import Path

from wholeball.site.views.start import EXAMPLE

ROOT = Path(__file__).resolve().parents[2]


def test_the_example_of_the_site_is_that_of_the_folder_of_examples() -> None:
    read, offered = ROOT / "examples" / "lantern-hill", EXAMPLE
    names = sorted(one.relative_to(read) for one in read.rglob("*") if one.is_file())
    assert names == sorted(
        one.relative_to(offered) for one in offered.rglob("*") if one.is_file()
    )
    _, differ, lost = filecmp.cmpfiles(read, offered, names, shallow=False)
    cure = f"Copy it again: cp -r {read.relative_to(ROOT)}/. {offered.relative_to(ROOT)}/"
    assert (differ, lost) == ([], []), cure


def test_nothing_of_the_package_is_a_link_to_a_place_outside_it() -> None:
    package = ROOT / "src" / "wholeball"
    assert [one for one in package.rglob("*") if one.is_symlink()] == []
