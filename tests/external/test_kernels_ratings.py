"""Ratings by people of different severity agree with published fits and designs.

The wine data are Randall's of 1989 (nine judges, eight bottles, one to five) as the R package
ordinal has them; the linear fit was made with R's lme4 and with statsmodels.
"""

import warnings
from itertools import pairwise
from typing import Any

import numpy as np
import pandas as pd
import pytest
from statsmodels.regression.mixed_linear_model import MixedLM

from external.cases import read
from wholeball.season.comparable import groups
from wholeball.season.mixed import Fitted, Reals, fit

HERE = "kernels/k01_rater_severity.json"
DATA: dict[str, Any] = read(HERE)
NEAR = 1e-5
ORDINAL = "a cumulative model for ordered values is not ours: the display uses the linear one"
FACETS = "a many-facet model is not ours: it needs more ratings than a season has"
NOT_OURS = {
    "wine_clm_statsmodels": ORDINAL,
    "wine_clmm_own_GHQ60": ORDINAL,
    "R_ordinal_reference": ORDINAL,
    "guilford": FACETS,
}
CHECKED = {
    "_meta",
    "wine_data",
    "wine_lmm",
    "connectivity",
    "simulation",
    "simulation_estimated_variances",
}


def test_every_group_of_values_in_the_file_is_checked_or_left_out_by_name() -> None:
    assert set(DATA) - CHECKED - set(NOT_OURS) == set()
    assert set(DATA) - {"_meta"} != set()


@pytest.mark.parametrize("name", sorted(NOT_OURS))
def test_values_of_a_model_that_is_not_ours_are_left_out(name: str) -> None:
    pytest.skip(f"{name}: {NOT_OURS[name]}")


def test_the_wine_fit_is_the_published_one() -> None:
    fitted, published = wine_fit(), given("wine_lmm")
    blups = [published["blup"][str(judge)] for judge in range(1, 10)]
    assert fitted.fixed == pytest.approx([*published["fixed"].values()], abs=NEAR)
    assert fitted.variances == pytest.approx([published["var_judge"]], abs=NEAR)
    assert fitted.residual == pytest.approx(published["var_resid"], abs=NEAR)
    assert fitted.random[0] == pytest.approx(blups, abs=NEAR)
    assert [*fitted.fixed, *fitted.random[0]] == pytest.approx(published["henderson"], abs=NEAR)


def test_the_wine_fit_has_the_errors_and_the_criterion_of_lme4() -> None:
    """R's lmer by REML: warm and contact 0.1707 each, criterion 172.5."""
    fitted = wine_fit()
    errors = np.sqrt(np.diag(fitted.covariance))
    assert errors[1:3] == pytest.approx([0.1707, 0.1707], abs=5e-5)
    assert fitted.criterion == pytest.approx(172.5, abs=0.05)


def test_the_errors_of_predictions_are_those_of_statsmodels() -> None:
    y, fixed, judges = wine()
    theirs = _their_fit(y, fixed, judges.argmax(axis=1))
    ours = fit(y, fixed, [judges])
    spread = [float(np.asarray(one).item()) for one in theirs.random_effects_cov.values()]
    known = ours.variances[0] - ours.variances[0] ** 2 * 8 / (
        ours.residual + 8 * ours.variances[0]
    )
    assert float(theirs.scale) == pytest.approx(ours.residual, abs=NEAR)
    assert -2 * float(theirs.llf) == pytest.approx(ours.criterion, abs=NEAR)
    assert spread == pytest.approx([known] * 9, abs=NEAR)


def test_teams_and_officials_crossed_are_fitted_as_statsmodels_fits_them() -> None:
    """Guilford's 1954 design as two random effects; its 105 values are only data here.

    Their usual search stops 1.7 above the least criterion on these data, so another of theirs
    is asked.
    """
    values = np.array(given("guilford")["data_judge_examinee_trait"], dtype=np.float64)
    judge, junior, _ = np.indices(values.shape)
    y, one = values.ravel(), np.ones((values.size, 1))
    frame = pd.DataFrame({"y": y, "judge": judge.ravel(), "junior": junior.ravel(), "all": 1})
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        theirs = MixedLM.from_formula(
            "y ~ 1",
            frame,
            groups="all",
            vc_formula={"judge": "0 + C(judge)", "junior": "0 + C(junior)"},
        ).fit(reml=True, method="lbfgs")
    ours = fit(y, one, [np.eye(3)[judge.ravel()], np.eye(7)[junior.ravel()]])
    assert ours.fixed == pytest.approx(np.asarray(theirs.fe_params), abs=1e-4)
    assert ours.variances == pytest.approx(np.asarray(theirs.vcomp), abs=1e-4)
    assert ours.residual == pytest.approx(float(theirs.scale), abs=1e-4)
    assert ours.criterion <= -2 * float(theirs.llf) + NEAR


@pytest.mark.parametrize("name", ["disjoint", "linked"])
def test_groups_and_rank_of_a_design_are_as_stated(name: str) -> None:
    row = given("connectivity")[name]
    found = groups(range(row["T"]), [(team, rater) for team, rater in row["obs"]])
    teams, raters = np.array(row["obs"]).T
    design = np.hstack([np.eye(row["T"])[teams], np.eye(row["R"])[raters]])
    rank = int(np.linalg.matrix_rank(design))
    assert (len(found), rank) == (row["components"], row["rank"])
    assert rank == row["T"] + row["R"] - len(found)


@pytest.mark.parametrize("crew", ["4_1", "4_2", "6_2"])
def test_the_gain_over_the_plain_mean_is_about_the_stated_one(crew: str) -> None:
    """Ours are other seasons by another chance, so the ratio may differ by a tenth."""
    row = given("simulation_estimated_variances")[crew]
    rounds, size = map(int, crew.split("_"))
    plain, typical = _errors(rounds=rounds, crew=size, seasons=60)
    assert typical / plain == pytest.approx(row["reml_blup"] / row["raw"], abs=0.1)


def test_the_stated_gain_is_greater_the_fewer_ratings_there_are() -> None:
    rows = given("simulation")
    gains = [
        rows[name]["blup_additive"]["rmse"] / rows[name]["raw"]["rmse"]
        for name in ("rounds4_crew1_random", "rounds4_crew2_random", "rounds6_crew2_random")
    ]
    ours = [
        typical / plain
        for plain, typical in (
            _errors(rounds=rounds, crew=size, seasons=60)
            for rounds, size in ((4, 1), (4, 2), (6, 2))
        )
    ]
    assert all(fewer < more for fewer, more in pairwise(gains))
    assert all(fewer < more for fewer, more in pairwise(ours))


def _errors(*, rounds: int, crew: int, seasons: int) -> tuple[float, float]:
    """Return how far plain means and our estimates are off what a typical official would give.

    As the published runs: 16 teams, 12 officials, ordered logits with a spread of 0.8 between
    teams and 0.7 between officials, one to five.
    """
    chance = np.random.default_rng(20261001)
    thresholds = np.array([-3.5, -2.0, -0.5, 1.5])
    off: list[tuple[float, float]] = []
    for _ in range(seasons):
        teams, officials = chance.normal(0, 0.8, 16), chance.normal(0, 0.7, 12)
        turns = range(rounds * crew)
        team = np.concatenate([chance.permutation(16) for _ in turns])
        by = np.concatenate([chance.permutation(12)[:8].repeat(2) for _ in turns])
        latent = teams[team] - officials[by] + chance.logistic(0, 1, len(team))
        values = 1.0 + (latent[:, None] > thresholds).sum(axis=1)
        spread = np.linspace(-2.5, 2.5, 41) * 0.7
        weight = np.exp(-((spread / 0.7) ** 2) / 2)
        above = 1 / (1 + np.exp(thresholds - (teams[:, None, None] - spread[:, None])))
        truth = 1 + (above.sum(axis=2) @ weight) / weight.sum()
        plain = np.bincount(team, values) / np.bincount(team)
        fitted = fit(values, np.ones((len(values), 1)), [np.eye(16)[team], np.eye(12)[by]])
        typical = fitted.fixed[0] + fitted.random[0]
        off.append(
            (float(np.mean((plain - truth) ** 2)), float(np.mean((typical - truth) ** 2)))
        )
    errors = np.sqrt(np.mean(off, axis=0))
    return float(errors[0]), float(errors[1])


def wine() -> tuple[Reals, Reals, Reals]:
    """Return the ratings, the matrix of mean, warm and contact, and the judges."""
    rows = given("wine_data")
    y = np.array([row["rating"] for row in rows], dtype=np.float64)
    fixed = np.array(
        [[1.0, row["temp"] == "warm", row["contact"] == "yes"] for row in rows],
        dtype=np.float64,
    )
    return y, fixed, np.eye(9)[[row["judge"] - 1 for row in rows]]


def wine_fit() -> Fitted:
    y, fixed, judges = wine()
    return fit(y, fixed, [judges])


def _their_fit(y: Reals, fixed: Reals, by: Any) -> Any:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return MixedLM(y, fixed, groups=by).fit(reml=True)


def given(name: str) -> Any:
    """Return one group of values; a file without it skips the test that asks."""
    if name not in DATA:
        pytest.skip(f"{HERE} holds no {name}")
    return DATA[name]
