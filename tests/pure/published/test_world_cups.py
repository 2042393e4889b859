"""Groups of the FIFA World Cups, 1954 to 2026, in their published order.

Source: the competitions' published results and tables, by competition and year; 1962 group 4,
1966 group 2, 1990 group F, 1994 group E and 2022 group C are typed from memory.
"""

from collections.abc import Callable
from typing import Any

import pytest

GROUPS: list[dict[str, Any]] = [
    {
        "name": "FIFA World Cup 1954, Group 4",
        "rules": "WORLD_CUP_1954",
        "win": 2,
        "results": """
            Switzerland 2-1 Italy
            England 4-4 Belgium
            Italy 4-1 Belgium
            England 2-0 Switzerland
        """,
        "play_offs": """
            Switzerland 4-1 Italy
        """,
        "order": "England > Switzerland > Italy > Belgium",
        "by": "points, play_off_match, points",
    },
    {
        "name": "FIFA World Cup 1962, Group 4",
        "rules": "WORLD_CUP_1962",
        "win": 2,
        "results": """
            Argentina 1-0 Bulgaria
            Hungary 2-1 England
            England 3-1 Argentina
            Hungary 6-1 Bulgaria
            Argentina 0-0 Hungary
            England 0-0 Bulgaria
        """,
        "order": "Hungary > England > Argentina > Bulgaria",
        "by": "points, goal_average, points",
    },
    {
        "name": "FIFA World Cup 1966, Group 2",
        "rules": "WORLD_CUP_1962",
        "win": 2,
        "results": """
            West Germany 5-0 Switzerland
            Argentina 2-1 Spain
            Spain 2-1 Switzerland
            Argentina 0-0 West Germany
            Argentina 2-0 Switzerland
            West Germany 2-1 Spain
        """,
        "order": "West Germany > Argentina > Spain > Switzerland",
        "by": "goal_average, points, points",
    },
    {
        "name": "FIFA World Cup 1974, second round, Group A",
        "rules": "WORLD_CUP_1974",
        "win": 2,
        "results": """
            Brazil 1-0 East Germany
            Netherlands 4-0 Argentina
            Argentina 1-2 Brazil
            East Germany 0-2 Netherlands
            Argentina 1-1 East Germany
            Netherlands 2-0 Brazil
        """,
        "order": "Netherlands > Brazil > East Germany > Argentina",
        "by": "points, points, difference",
    },
    {
        "name": "FIFA World Cup 1978, second round, Group B",
        "rules": "WORLD_CUP_1974",
        "win": 2,
        "results": """
            Brazil 3-0 Peru
            Argentina 2-0 Poland
            Peru 0-1 Poland
            Argentina 0-0 Brazil
            Brazil 3-1 Poland
            Argentina 6-0 Peru
        """,
        "order": "Argentina > Brazil > Poland > Peru",
        "by": "difference, points, points",
    },
    {
        "name": "FIFA World Cup 1982, Group 1",
        "rules": "WORLD_CUP_1974",
        "win": 2,
        "results": """
            Italy 0-0 Poland
            Peru 0-0 Cameroon
            Italy 1-1 Peru
            Poland 0-0 Cameroon
            Poland 5-1 Peru
            Italy 1-1 Cameroon
        """,
        "order": "Poland > Italy > Cameroon > Peru",
        "by": "points, goals, points",
    },
    {
        "name": "FIFA World Cup 1986, Group F",
        "rules": "WORLD_CUP_1986",
        "win": 2,
        "results": """
            Morocco 0-0 Poland
            Portugal 1-0 England
            England 0-0 Morocco
            Poland 1-0 Portugal
            England 3-0 Poland
            Portugal 1-3 Morocco
        """,
        "order": "Morocco > England > Poland > Portugal",
        "by": "points, difference, points",
    },
    {
        "name": "FIFA World Cup 1990, Group F",
        "rules": "WORLD_CUP_1986",
        "win": 2,
        "results": """
            England 1-1 Ireland
            Netherlands 1-1 Egypt
            England 0-0 Netherlands
            Ireland 0-0 Egypt
            England 1-0 Egypt
            Ireland 1-1 Netherlands
        """,
        "order": "England > Ireland = Netherlands > Egypt",
        "by": "points, lots, points",
    },
    {
        "name": "FIFA World Cup 1994, Group E",
        "rules": "WORLD_CUP_1994",
        "results": """
            Italy 0-1 Ireland
            Norway 1-0 Mexico
            Italy 1-0 Norway
            Mexico 2-1 Ireland
            Ireland 0-0 Norway
            Italy 1-1 Mexico
        """,
        "order": "Mexico > Ireland > Italy > Norway",
        "by": "goals, h2h_points, goals",
    },
    {
        "name": "FIFA World Cup 2002, Group F",
        "rules": "WORLD_CUP_1994",
        "results": """
            Argentina 1-0 Nigeria
            England 1-1 Sweden
            Sweden 2-1 Nigeria
            Argentina 0-1 England
            Nigeria 0-0 England
            Sweden 1-1 Argentina
        """,
        "order": "Sweden > England > Argentina > Nigeria",
        "by": "goals, points, points",
    },
    {
        "name": "FIFA World Cup 2010, Group C",
        "rules": "WORLD_CUP_1994",
        "results": """
            England 1-1 United States
            Algeria 0-1 Slovenia
            Slovenia 2-2 United States
            England 0-0 Algeria
            Slovenia 0-1 England
            United States 1-0 Algeria
        """,
        "order": "United States > England > Slovenia > Algeria",
        "by": "goals, points, points",
    },
    {
        "name": "FIFA World Cup 2010, Group D",
        "rules": "WORLD_CUP_1994",
        "results": """
            Serbia 0-1 Ghana
            Germany 4-0 Australia
            Germany 0-1 Serbia
            Ghana 1-1 Australia
            Australia 2-1 Serbia
            Ghana 0-1 Germany
        """,
        "order": "Germany > Ghana > Australia > Serbia",
        "by": "points, difference, points",
    },
    {
        "name": "FIFA World Cup 2018, Group B",
        "rules": "WORLD_CUP_2018",
        "results": """
            Morocco 0-1 Iran
            Portugal 3-3 Spain
            Portugal 1-0 Morocco
            Iran 0-1 Spain
            Spain 2-2 Morocco
            Iran 1-1 Portugal
        """,
        "cards": {
            "Spain": (1, 0, 0, 0),
            "Portugal": (6, 0, 0, 0),
            "Iran": (7, 0, 0, 0),
            "Morocco": (8, 0, 0, 0),
        },
        "order": "Spain > Portugal > Iran > Morocco",
        "by": "goals, points, points",
    },
    {
        "name": "FIFA World Cup 2018, Group F",
        "rules": "WORLD_CUP_2018",
        "results": """
            Germany 0-1 Mexico
            Sweden 1-0 South Korea
            South Korea 1-2 Mexico
            Germany 2-1 Sweden
            South Korea 2-0 Germany
            Mexico 0-3 Sweden
        """,
        "cards": {
            "Sweden": (5, 0, 0, 0),
            "Mexico": (5, 0, 0, 0),
            "South Korea": (10, 0, 0, 0),
            "Germany": (2, 1, 0, 0),
        },
        "order": "Sweden > Mexico > South Korea > Germany",
        "by": "difference, points, difference",
    },
    {
        "name": "FIFA World Cup 2018, Group H",
        "rules": "WORLD_CUP_2018",
        "results": """
            Colombia 1-2 Japan
            Poland 1-2 Senegal
            Japan 2-2 Senegal
            Poland 0-3 Colombia
            Japan 0-1 Poland
            Senegal 0-1 Colombia
        """,
        "cards": {
            "Colombia": (3, 0, 1, 0),
            "Japan": (4, 0, 0, 0),
            "Senegal": (6, 0, 0, 0),
            "Poland": (3, 0, 0, 0),
        },
        "order": "Colombia > Japan > Senegal > Poland",
        "by": "points, conduct, points",
    },
    {
        "name": "FIFA World Cup 2022, Group C",
        "rules": "WORLD_CUP_2018",
        "results": """
            Argentina 1-2 Saudi Arabia
            Mexico 0-0 Poland
            Poland 2-0 Saudi Arabia
            Argentina 2-0 Mexico
            Poland 0-2 Argentina
            Saudi Arabia 1-2 Mexico
        """,
        "order": "Argentina > Poland > Mexico > Saudi Arabia",
        "by": "points, difference, points",
    },
    {
        "name": "FIFA World Cup 2026, Group J",
        "rules": "WORLD_CUP_2026",
        "results": """
            Argentina 3-0 Algeria
            Austria 3-1 Jordan
            Argentina 2-0 Austria
            Jordan 1-2 Algeria
            Algeria 3-3 Austria
            Jordan 1-3 Argentina
        """,
        "order": "Argentina > Austria > Algeria > Jordan",
        "by": "points, difference, points",
    },
]


@pytest.mark.parametrize("group", GROUPS, ids=[group["name"] for group in GROUPS])
def test_the_group_stands_as_published_and_for_the_published_reason(
    group: dict[str, Any], stands: Callable[[dict[str, Any]], tuple[str, str]]
) -> None:
    assert stands(group) == (group["order"], group["by"])
