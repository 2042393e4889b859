"""Groups of the UEFA European Championships, 1980 to 2020, in their published order.

Source: the competitions' published results and tables, by competition and year.
"""

from collections.abc import Callable
from typing import Any

import pytest

GROUPS: list[dict[str, Any]] = [
    {
        "name": "UEFA Euro 1980, Group 1",
        "rules": "EURO_1980",
        "win": 2,
        "results": """
            Czechoslovakia 0-1 West Germany
            Netherlands 1-0 Greece
            West Germany 3-2 Netherlands
            Greece 1-3 Czechoslovakia
            Greece 0-0 West Germany
            Netherlands 1-1 Czechoslovakia
        """,
        "order": "West Germany > Czechoslovakia > Netherlands > Greece",
        "by": "points, difference, points",
    },
    {
        "name": "UEFA Euro 1996, Group C",
        "rules": "EURO_1996",
        "results": """
            Germany 2-0 Czech Republic
            Italy 2-1 Russia
            Czech Republic 2-1 Italy
            Russia 0-3 Germany
            Italy 0-0 Germany
            Russia 3-3 Czech Republic
        """,
        "order": "Germany > Czech Republic > Italy > Russia",
        "by": "points, h2h_points, points",
    },
    {
        "name": "UEFA Euro 2004, Group C",
        "rules": "EURO_1996",
        "results": """
            Denmark 0-0 Italy
            Sweden 5-0 Bulgaria
            Bulgaria 0-2 Denmark
            Italy 1-1 Sweden
            Denmark 2-2 Sweden
            Italy 2-1 Bulgaria
        """,
        "order": "Sweden > Denmark > Italy > Bulgaria",
        "by": "h2h_goals, h2h_goals, points",
    },
    {
        "name": "UEFA Euro 2012, Group A",
        "rules": "EURO_2012",
        "results": """
            Poland 1-1 Greece
            Russia 4-1 Czech Republic
            Greece 1-2 Czech Republic
            Poland 1-1 Russia
            Greece 1-0 Russia
            Poland 0-1 Czech Republic
        """,
        "order": "Czech Republic > Greece > Russia > Poland",
        "by": "points, h2h_points, points",
    },
    {
        "name": "UEFA Euro 2016, Group E",
        "rules": "EURO_2012",
        "results": """
            Belgium 0-2 Italy
            Republic of Ireland 1-1 Sweden
            Italy 1-0 Sweden
            Belgium 3-0 Republic of Ireland
            Italy 0-1 Republic of Ireland
            Sweden 0-1 Belgium
        """,
        "order": "Italy > Belgium > Republic of Ireland > Sweden",
        "by": "h2h_points, points, points",
    },
    {
        "name": "UEFA Euro 2020, Group D",
        "rules": "EURO_2012",
        "results": """
            England 1-0 Croatia
            Scotland 0-2 Czech Republic
            Croatia 1-1 Czech Republic
            England 0-0 Scotland
            Scotland 1-3 Croatia
            England 1-0 Czech Republic
        """,
        "order": "England > Croatia > Czech Republic > Scotland",
        "by": "points, goals, points",
    },
]


@pytest.mark.parametrize("group", GROUPS, ids=[group["name"] for group in GROUPS])
def test_the_group_stands_as_published_and_for_the_published_reason(
    group: dict[str, Any], stands: Callable[[dict[str, Any]], tuple[str, str]]
) -> None:
    assert stands(group) == (group["order"], group["by"])
