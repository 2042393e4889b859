"""The mixed model agrees with what can be worked out by hand, and says when it cannot tell."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from wholeball.season.mixed import Fitted, NoFit, Reals, fit, widened

SEASONS = st.integers(0, 10_000)
Whole = NDArray[np.int64]


@given(seed=SEASONS)
@settings(max_examples=40, deadline=None)
def test_a_balanced_design_has_the_variances_of_its_table_of_squares(seed: int) -> None:
    """Balanced, REML is the analysis of variance (Searle, Casella, McCulloch 1992, from memory).

    Where a component would come out below 0 it is 0, and the others are those without it.
    """
    values = _balanced(seed)
    teams, officials = _table(values)
    residual = _residual(values)
    fitted = _fit(values)
    if min(teams, officials) >= residual:
        expected = ((teams - residual) / 5, (officials - residual) / 6)
        assert fitted.variances == pytest.approx(expected, abs=1e-6)
        assert fitted.residual == pytest.approx(residual, abs=1e-6)
    else:
        assert 0.0 in fitted.variances


@given(seed=SEASONS)
@settings(max_examples=30, deadline=None)
def test_a_balanced_design_changes_no_order_and_no_mean(seed: int) -> None:
    """Everybody rated by everybody: the typical figures are the plain ones, drawn together."""
    values = _balanced(seed)
    fitted = _fit(values)
    plain = values.mean(axis=1) - values.mean()
    share = 5 * fitted.variances[0] / (5 * fitted.variances[0] + fitted.residual)
    assert fitted.fixed == pytest.approx([values.mean()])
    assert fitted.random[0] == pytest.approx(share * plain, abs=1e-6)
    assert float(fitted.random[1].sum()) == pytest.approx(0, abs=1e-9)


@given(seed=SEASONS, by=st.integers(-50, 50))
@settings(max_examples=20, deadline=None)
def test_raising_every_value_raises_the_mean_alone(seed: int, by: int) -> None:
    values, team, official = _unbalanced(seed)
    before = _crossed(values, team, official)
    after = _crossed(values + by, team, official)
    assert after.fixed - before.fixed == pytest.approx([by], abs=1e-5)
    assert after.variances == pytest.approx(before.variances, abs=1e-5)
    for one, other in zip(after.random, before.random, strict=True):
        assert one == pytest.approx(other, abs=1e-5)


@given(seed=SEASONS)
@settings(max_examples=20, deadline=None)
def test_the_order_of_the_values_means_nothing(seed: int) -> None:
    values, team, official = _unbalanced(seed)
    order = np.random.default_rng(seed).permutation(len(values))
    before = _crossed(values, team, official)
    after = _crossed(values[order], team[order], official[order])
    assert after.variances == pytest.approx(before.variances, abs=1e-6)
    assert after.random[0] == pytest.approx(before.random[0], abs=1e-6)


@given(seed=SEASONS)
@settings(max_examples=20, deadline=None)
def test_no_nearby_variance_fits_better(seed: int) -> None:
    """The criterion worked out from V itself, by its definition, is least where we say."""
    values, team, official = _unbalanced(seed)
    fitted = _crossed(values, team, official)
    found = (*fitted.variances, fitted.residual)
    least = _by_definition(values, team, official, found)
    assert fitted.criterion == pytest.approx(least, abs=1e-6)
    for at in range(3):
        for factor in (0.9, 1.1):
            tried = [*found]
            tried[at] = tried[at] * factor if tried[at] > 0 else 0.01 * factor
            assert _by_definition(values, team, official, tuple(tried)) > least


def test_predictions_are_those_of_the_covariances_themselves() -> None:
    """u = s Z'V^-1 (y - Xb) with V written out: no equation of Henderson's is used."""
    values, team, official = _unbalanced(3)
    fitted = _crossed(values, team, official)
    v = _v(team, official, (*fitted.variances, fitted.residual))
    left = np.linalg.solve(v, values - fitted.fixed[0])
    assert fitted.variances[0] > 0 < fitted.variances[1]
    assert fitted.random[0] == pytest.approx(fitted.variances[0] * np.eye(8)[team].T @ left)
    assert fitted.random[1] == pytest.approx(fitted.variances[1] * np.eye(6)[official].T @ left)


def test_teams_that_do_not_differ_have_no_variance_and_no_error_of_their_own() -> None:
    values = np.array([[1, 2], [2, 1], [1, 2], [2, 1]], dtype=np.float64)
    fitted = _fit(values)
    assert fitted.variances == (0, 0)
    assert fitted.residual == pytest.approx(float(np.var(values, ddof=1)))
    assert [one.tolist() for one in fitted.random] == [[0] * 4, [0] * 2]
    assert np.count_nonzero(fitted.covariance) == 1


@pytest.mark.parametrize(
    "values",
    [
        pytest.param([[3, 3], [3, 3]], id="one value"),
        pytest.param([[2, 2], [4, 4], [5, 5]], id="teams account for all"),
        pytest.param([[2, 3], [4, 5], [1, 2]], id="teams and officials account for all"),
    ],
)
def test_values_that_leave_nothing_over_are_refused(values: list[list[float]]) -> None:
    with pytest.raises(NoFit):
        _fit(np.array(values, dtype=np.float64))


def test_too_many_or_repeated_columns_are_a_mistake_of_ours() -> None:
    y = np.array([1.0, 2.0, 4.0])
    for fixed in (np.eye(3), np.ones((3, 2))):
        with pytest.raises(ValueError, match="does not suit 3 observations"):
            fit(y, fixed, [np.eye(3)])


def test_doubt_about_variances_widens_errors_and_vanishes_with_many_values() -> None:
    few, many = _unbalanced(3), _many(40, 30)
    widths = []
    for values, team, official in (few, many):
        fitted = _crossed(values, team, official)
        random = [np.eye(by.max() + 1)[by] for by in (team, official)]
        wider = widened(values, np.ones((len(values), 1)), random, fitted)
        teams = slice(1, 1 + random[0].shape[1])
        widths.append(
            np.sqrt(np.diag(wider)[teams].mean() / np.diag(fitted.covariance)[teams].mean())
        )
    assert 1.04 < widths[0] < 1.3
    assert 1 < widths[1] < 1.03


def test_a_variance_of_nought_leaves_doubt_all_the_same() -> None:
    values = np.array([[1, 2], [2, 1], [1, 2], [2, 1]], dtype=np.float64)
    team, official = (each.ravel() for each in np.indices(values.shape))
    fitted = _fit(values)
    random = [np.eye(4)[team], np.eye(2)[official]]
    wider = widened(values.ravel(), np.ones((8, 1)), random, fitted)
    assert np.all(np.diag(wider) > 0.01)


def _many(teams: int, officials: int) -> tuple[Reals, Whole, Whole]:
    chance = np.random.default_rng(5)
    team, official = (each.ravel() for each in np.indices((teams, officials)))
    drawn = chance.normal(0, 0.8, teams)[team] + chance.normal(0, 0.7, officials)[official]
    return 3 + drawn + chance.normal(0, 0.6, len(team)), team, official


def _fit(values: Reals) -> Fitted:
    team, official = np.indices(values.shape)
    return _crossed(values.ravel(), team.ravel(), official.ravel())


def _crossed(values: Reals, team: Whole, official: Whole) -> Fitted:
    random = [np.eye(by.max() + 1)[by] for by in (team, official)]
    return fit(values, np.ones((len(values), 1)), random)


def _balanced(seed: int) -> Reals:
    """Return what each of five officials gave each of six teams."""
    chance = np.random.default_rng(seed)
    teams, officials = chance.normal(0, 0.8, (6, 1)), chance.normal(0, 0.7, (1, 5))
    return np.asarray(3 + teams + officials + chance.normal(0, 0.5, (6, 5)))


def _unbalanced(seed: int) -> tuple[Reals, Whole, Whole]:
    """Return ratings of eight teams by six officials, with who got them and who gave them."""
    chance = np.random.default_rng(seed)
    team = np.tile(np.arange(8), 6)
    official = np.concatenate([np.arange(6), chance.integers(0, 6, 42)])
    teams, officials = chance.normal(0, 0.8, 8), chance.normal(0, 0.7, 6)
    values = np.round(3 + teams[team] + officials[official] + chance.normal(0, 0.6, 48), 1)
    return values, team, official


def _table(values: Reals) -> tuple[float, float]:
    """Return the mean squares between teams and between officials."""
    rows, columns = values.shape
    teams = columns * np.sum((values.mean(axis=1) - values.mean()) ** 2) / (rows - 1)
    officials = rows * np.sum((values.mean(axis=0) - values.mean()) ** 2) / (columns - 1)
    return float(teams), float(officials)


def _residual(values: Reals) -> float:
    rows, columns = values.shape
    over = values - values.mean(axis=1, keepdims=True) - values.mean(axis=0) + values.mean()
    return float(np.sum(over**2) / ((rows - 1) * (columns - 1)))


def _v(team: Whole, official: Whole, variances: tuple[float, ...]) -> Reals:
    same_team = team[:, None] == team
    same_official = official[:, None] == official
    return np.asarray(
        variances[0] * same_team
        + variances[1] * same_official
        + variances[2] * np.eye(len(team))
    )


def _by_definition(
    values: Reals, team: Whole, official: Whole, variances: tuple[float, ...]
) -> float:
    """Return minus twice the restricted log-likelihood, of V as it is written."""
    v, one = _v(team, official, variances), np.ones((len(values), 1))
    weighed = np.linalg.solve(v, one)
    mean = float(weighed[:, 0] @ values / weighed.sum())
    left = values - mean
    squares = float(left @ np.linalg.solve(v, left))
    logs = np.linalg.slogdet(v)[1] + np.log(weighed.sum())
    return float((len(values) - 1) * np.log(2 * np.pi) + logs + squares)
