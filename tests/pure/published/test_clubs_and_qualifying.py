"""Groups of the UEFA Champions League and of World Cup qualifying, in published order.

Source: the competitions' published results and tables, by competition and year.
"""

from collections.abc import Callable
from typing import Any

import pytest

GROUPS: list[dict[str, Any]] = [
    {
        "name": "UEFA Champions League 2012-13, group of Manchester United and Galatasaray",
        "rules": "CLUBS_2009",
        "results": """
            Manchester United 1-0 Galatasaray
            Sporting Braga 0-2 CFR Cluj
            Galatasaray 0-2 Sporting Braga
            CFR Cluj 1-2 Manchester United
            Manchester United 3-2 Sporting Braga
            Galatasaray 1-1 CFR Cluj
            Sporting Braga 1-3 Manchester United
            CFR Cluj 1-3 Galatasaray
            Galatasaray 1-0 Manchester United
            CFR Cluj 3-1 Sporting Braga
            Sporting Braga 1-2 Galatasaray
            Manchester United 0-1 CFR Cluj
        """,
        "order": "Manchester United > Galatasaray > CFR Cluj > Sporting Braga",
        "by": "points, h2h_points, points",
    },
    {
        "name": "UEFA Champions League 2015-16, group of Bayern München and Arsenal FC",
        "rules": "CLUBS_2009",
        "results": """
            Olympiakos Piraeus 0-3 Bayern München
            Dinamo Zagreb 2-1 Arsenal FC
            Arsenal FC 2-3 Olympiakos Piraeus
            Bayern München 5-0 Dinamo Zagreb
            Arsenal FC 2-0 Bayern München
            Dinamo Zagreb 0-1 Olympiakos Piraeus
            Bayern München 5-1 Arsenal FC
            Olympiakos Piraeus 2-1 Dinamo Zagreb
            Bayern München 4-0 Olympiakos Piraeus
            Arsenal FC 3-0 Dinamo Zagreb
            Dinamo Zagreb 0-2 Bayern München
            Olympiakos Piraeus 0-3 Arsenal FC
        """,
        "order": "Bayern München > Arsenal FC > Olympiakos Piraeus > Dinamo Zagreb",
        "by": "points, h2h_difference, points",
    },
    {
        "name": "UEFA Champions League 2017-18, group of AS Roma and Chelsea FC",
        "rules": "CLUBS_2009",
        "results": """
            AS Roma 0-0 Atlético Madrid
            Chelsea FC 6-0 Qarabağ FK
            Qarabağ FK 1-2 AS Roma
            Atlético Madrid 1-2 Chelsea FC
            Qarabağ FK 0-0 Atlético Madrid
            Chelsea FC 3-3 AS Roma
            AS Roma 3-0 Chelsea FC
            Atlético Madrid 1-1 Qarabağ FK
            Qarabağ FK 0-4 Chelsea FC
            Atlético Madrid 2-0 AS Roma
            Chelsea FC 1-1 Atlético Madrid
            AS Roma 1-0 Qarabağ FK
        """,
        "order": "AS Roma > Chelsea FC > Atlético Madrid > Qarabağ FK",
        "by": "h2h_points, points, points",
    },
    {
        "name": "UEFA Champions League 2020-21, group of Juventus and FC Barcelona",
        "rules": "CLUBS_2009",
        "results": """
            Dinamo Kiev 0-2 Juventus
            FC Barcelona 5-1 Ferencvárosi TC
            Ferencvárosi TC 2-2 Dinamo Kiev
            Juventus 0-2 FC Barcelona
            FC Barcelona 2-1 Dinamo Kiev
            Ferencvárosi TC 1-4 Juventus
            Dinamo Kiev 0-4 FC Barcelona
            Juventus 2-1 Ferencvárosi TC
            Juventus 3-0 Dinamo Kiev
            Ferencvárosi TC 0-3 FC Barcelona
            Dinamo Kiev 1-0 Ferencvárosi TC
            FC Barcelona 0-3 Juventus
        """,
        "order": "Juventus > FC Barcelona > Dinamo Kiev > Ferencvárosi TC",
        "by": "h2h_difference, points, points",
    },
    {
        "name": "UEFA Champions League 2022-23, group of SL Benfica and Paris Saint-Germain",
        "rules": "CLUBS_2021",
        "results": """
            Paris Saint-Germain 2-1 Juventus
            SL Benfica 2-0 Maccabi Haifa
            Juventus 1-2 SL Benfica
            Maccabi Haifa 1-3 Paris Saint-Germain
            Juventus 3-1 Maccabi Haifa
            SL Benfica 1-1 Paris Saint-Germain
            Maccabi Haifa 2-0 Juventus
            Paris Saint-Germain 1-1 SL Benfica
            SL Benfica 4-3 Juventus
            Paris Saint-Germain 7-2 Maccabi Haifa
            Juventus 1-2 Paris Saint-Germain
            Maccabi Haifa 1-6 SL Benfica
        """,
        "order": "SL Benfica > Paris Saint-Germain > Juventus > Maccabi Haifa",
        "by": "away_goals, points, difference",
    },
    {
        "name": "FIFA World Cup 2018 qualifying, Oceania, first round",
        "rules": "QUALIFYING",
        "results": """
            Tonga 0-3 Cook Islands
            Samoa 3-2 American Samoa
            Cook Islands 1-0 Samoa
            Tonga 1-2 American Samoa
            Tonga 0-3 Samoa
            American Samoa 2-0 Cook Islands
        """,
        "order": "Samoa > American Samoa > Cook Islands > Tonga",
        "by": "difference, goals, points",
    },
    {
        "name": "FIFA World Cup 2002 qualifying, Central America, Group B",
        "rules": "QUALIFYING",
        "results": """
            Honduras 3-0 Nicaragua
            Nicaragua 0-2 Panama
            Panama 1-0 Honduras
            Nicaragua 0-1 Honduras
            Honduras 3-1 Panama
            Panama 4-0 Nicaragua
        """,
        "order": "Panama > Honduras > Nicaragua",
        "by": "goals, points",
    },
    {
        "name": "FIFA World Cup 2018 qualifying, Africa, Group B",
        "rules": "QUALIFYING",
        "results": """
            Zambia 1-2 Nigeria
            Algeria 1-1 Cameroon
            Cameroon 1-1 Zambia
            Nigeria 3-1 Algeria
            Nigeria 4-0 Cameroon
            Zambia 3-1 Algeria
            Cameroon 1-1 Nigeria
            Algeria 0-1 Zambia
            Cameroon 2-0 Algeria
            Nigeria 1-0 Zambia
            Algeria 3-0 Nigeria
            Zambia 2-2 Cameroon
        """,
        "awarded": """
            Algeria 3-0 Nigeria
        """,
        "order": "Nigeria > Zambia > Cameroon > Algeria",
        "by": "points, points, points",
    },
]


@pytest.mark.parametrize("group", GROUPS, ids=[group["name"] for group in GROUPS])
def test_the_group_stands_as_published_and_for_the_published_reason(
    group: dict[str, Any], stands: Callable[[dict[str, Any]], tuple[str, str]]
) -> None:
    assert stands(group) == (group["order"], group["by"])
