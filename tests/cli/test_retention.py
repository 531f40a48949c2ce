"""Rules of retention from the command line: set, looked at, applied."""

import json

import pytest
from cli.test_people_privacy import leaves, run, said  # noqa: F401  (a fixture)


@pytest.fixture
def by():
    return ("--by", "00112")


def test_rules_are_set_looked_at_and_applied(run, tmp_path, by):  # noqa: F811
    assert "No rule is set, so everything is kept." in run("records", "retention").output
    words = ("--set", "identity=0", "--set", "entries=0:event", "--set", "sign-ins=1", "--because", "Policy 7")
    told = run("records", "retention", *words, *by).output
    assert "rule: entries, 0 years from event. Policy 7" in told
    key = leaves(tmp_path)

    told = run("records", "retention", "--preview").output
    assert "has had its time: 00241 Dana Ruiz until" in told
    assert "has had its time: sign-ins (0)" in told
    data = json.loads(run("records", "retention", "--json", "--on", "2000-01-01").output)
    assert data["over"] == []
    code, told = said(run("records", "retention", "--apply", *by))
    assert (code, told) == (0, "removed: identity (1)\nremoved: sign-ins (0)")
    assert said(run("records", "verify"))[0] == 0
    assert "last removal: " in run("records", "retention").output
    assert f"erased-{key[:12]}" not in run("people", "list").output


def test_rules_are_all_set_or_none(run, by):  # noqa: F811
    code, told = said(run("records", "retention", "--set", "identity=1", "--set", "photos=1", "--because", "x", *by))
    assert (code, "no kind of record" in told) == (2, True)
    assert "No rule is set" in run("records", "retention").output


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--set", "identity"), "Write a rule as"),
        (("--set", "identity=a"), "Write a rule as"),
        (("--set", "identity=-1"), "Write a rule as"),
        (("--set", "identity=1", "--because", "x"), "Give --by"),
        (("--set", "identity=1", "--by", "00112"), "Say why"),
        (("--apply",), "Give --by"),
        (("--apply", "--preview"), "by itself"),
        (("--apply", "--on", "2030-01-01"), "by itself"),
    ],
)
def test_what_is_wrong_gets_one_sentence(run, words, says):  # noqa: F811
    code, told = said(run("records", "retention", *words))
    assert (code, says in told, "\n" in told) == (2, True, False)
