"""Lists the addresses of who plays: divisions, teams, rosters, clearances, suspensions."""

from django.urls import path

from wholeball.desk.views import (
    absences,
    days_off,
    discipline,
    eligibility,
    history,
    pools,
    rosters,
    season,
    teams,
    times,
)

urlpatterns = [
    path("season/", season.season, name="season"),
    path("season/noticeboard/", season.noticeboard, name="noticeboard"),
    path("season/pools/", pools.pools, name="pools"),
    path("season/pools/spread/", pools.spread, name="spread_pools"),
    path("season/pools/move/", pools.move, name="move_pools"),
    path("season/pools/take/", pools.take_in, name="take_teams"),
    path("season/rosters/", rosters.rosters, name="rosters"),
    path("season/rosters/list/", rosters.check_rosters, name="check_rosters"),
    path("season/rosters/add/", rosters.add_rosters, name="add_rosters"),
    path("season/times/", times.times, name="times"),
    path("season/times/add/", times.add, name="add_time"),
    path("season/times/take-out/", times.drop, name="drop_time"),
    path("season/times/days/", times.days, name="set_days"),
    path("season/days-off/", days_off.days_off, name="days_off"),
    path("season/days-off/open/", days_off.drop, name="drop_day_off"),
    path("season/absences/", absences.absences, name="absences"),
    path("season/absences/take-out/", absences.drop, name="drop_absence"),
    path("season/times/amount/", times.amount, name="set_amount"),
    path("teams/<name:team>/", teams.team, name="team"),
    path("teams/<name:team>/list/", teams.check_roster, name="check_roster"),
    path("teams/<name:team>/add/", teams.add_roster, name="add_roster"),
    path("clearances/", eligibility.clearances, name="clearances"),
    path("clearances/block/", eligibility.block, name="block"),
    path("clearances/lift/", eligibility.lift, name="lift"),
    path("changes/", history.history, name="history"),
    path("changes/undo/", history.undo, name="undo"),
    path("suspensions/", discipline.suspensions, name="suspensions"),
    path("suspensions/decide/", discipline.decide, name="decide"),
]
