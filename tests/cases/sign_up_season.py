"""Holds the files of a season whose blocks teams and players alone ask for."""

from typing import Final

HEAD: Final = "team,block,at,captain,players,colours,second_colours\n"
ALONE_HEAD: Final = "person,name,block,at\n"
FILES: Final = {
    "divisions": "division,league\none,Autumn\ntwo,Evening\n",
    "blocks": "block,division,weekday,from,until,places\n"
    "Tuesday,one,tuesday,19:00,22:00,2\n"
    "Thursday,two,thursday,19:00,22:00,4\n",
    "sign_ups": HEAD + "Heron United,Tuesday,2026-08-20 09:05,Ida Brackwell,11,blue,grey\n"
    "Mallards,Tuesday,2026-08-20 08:00,,,,\n"
    "Coots,Tuesday,2026-08-21 10:00,,,,\n"
    "Coots,Thursday,2026-08-21 10:00,,,,\n",
    "alone": ALONE_HEAD + "lone-1,Wil Sandry,Tuesday,2026-08-22 10:00\n",
}
"""The files beside those of every season: three teams for two places, one for another block."""
