"""Holds the files of a season in which forfeits cost a fee, and Birch and Elder owe one."""

from typing import Final

from cases.desk_season import CREW
from cases.people_season import RULES

FEE: Final = '[forfeit.fee]\nref = "H 10.5"\namount = 20\ncaptain_waits = true\n'
HEAD: Final = "date,team,game,what,amount,why\n"
_RESULTS: Final = """game,round,home,away,home_goals,away_goals,how
E1,5,Elder,Ash,,,double_forfeit
"""
_RULINGS: Final = """ruling,date,game,ruled,by,ref,why
1,2026-09-18,A2,forfeit,home,H 3.5,birch came half an hour late.
"""
_ROSTERS: Final = """team,number,name,captain,person
Ash,4,Noor Zephirou,,k-noor
Ash,7,Umaru Kealohana,,k-umaru
Birch,14,Ondine Havenko,,k-ondine
Birch,15,Rangi Farrowby,yes,k-rangi
Cedar,4,N. Zefirou,,k-noor
"""
FILES: Final = {
    "rules": RULES + CREW + FEE,
    "results": _RESULTS,
    "rulings": _RULINGS,
    "rosters": _ROSTERS,
}
"""The files beside those of every season at a desk: three dues of 20, none settled."""
