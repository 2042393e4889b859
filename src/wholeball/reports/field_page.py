"""Makes the page of the field of play: the drawing, and every size in words."""

from wholeball.reports.shell import Page, Shell, Spot, rendered


def field_page(
    field: str, sizes: tuple[str, ...], *, spot: Spot, shell: Shell, here: str
) -> str:
    """Return the page of a field.

    Args:
        field: the field as SVG, drawn by us: the one value that is not escaped.
        sizes: each marking and its size in a sentence.
        spot: the number of the page, such as the length of the field.
        shell: what the pages share.
        here: the name of this page's file.
    """
    page = Page(here=here, title="The field of play", spot=spot)
    return rendered("field.html", page, shell, field=field, sizes=sizes)
