"""The phone question as it is typed, in a hurry."""

import json

import pytest

from powerplan.cli.main import main
from powerplan.model.plan import CAUTION


def quick(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    code = main(["quick", *words])
    out, err = capsys.readouterr()
    return code, " ".join(out.split()), err


def test_everything_said_gives_a_plain_yes(capsys: pytest.CaptureFixture[str]):
    words = ["--chairs", "5", "--input", "1.8A", "--breaker", "15A", "--already", "3A"]
    code, told, _ = quick(capsys, *words, "--fastened", "no")
    assert code == 0
    assert (
        "Yes. 5 chairs of 1.8 A ask for 11.25 A, what is on it already for 3.75 A, of 15 A." in told
    )
    assert "How many more: 0 such chairs." in told
    assert told.endswith("Verdict: yes, this circuit carries 5 chairs.")
    assert CAUTION in told


def test_a_load_left_out_is_what_the_answer_hangs_on(capsys: pytest.CaptureFixture[str]):
    words = ["--chairs", "5", "--input", "1.8A", "--breaker", "15A", "--fastened", "no"]
    code, told, _ = quick(capsys, *words)
    assert code == 4
    assert "nothing more than 3 A is already on it for hours, or 3.75 A now and then" in told
    assert "unknown, not zero" in told
    assert told.endswith("but only if what is named above holds.")


def test_too_many_are_refused_with_the_number_at_which_it_turns(
    capsys: pytest.CaptureFixture[str],
):
    words = ["--chairs", "7", "--input", "2 A", "--breaker", "15 A", "--already", "none"]
    code, told, _ = quick(capsys, *words)
    assert code == 1
    assert "No. 7 chairs of 2 A ask for 17.5 A, of 15 A. That is too much." in told
    assert "carries 6 such chairs" in told
    assert "passes if no more than 0.57 A of it lasts" in told
    assert "A new 20 A circuit of its own carries 8 such chairs." in told
    assert "6 such chairs on one plug" in told


@pytest.mark.parametrize("amps", ["1.8A", "1,8 A", "1.8 A", "1.8 amps", "1.8 amp", "1800 mA"])
def test_amperes_are_read_as_people_write_them(amps: str, capsys: pytest.CaptureFixture[str]):
    words = ["--chairs", "5", "--breaker", "15A", "--already", "none", "--input", amps]
    code, told, _ = quick(capsys, *words)
    assert code == 0
    assert "5 chairs of 1.8 A ask for 11.25 A" in told


@pytest.mark.parametrize("wire", ["14 AWG", "14awg", "#14", "14", "14 gauge"])
def test_a_wire_is_read_as_people_write_it(wire: str, capsys: pytest.CaptureFixture[str]):
    words = ["--chairs", "1", "--input", "1A", "--breaker", "20A", "--already", "none"]
    code, told, _ = quick(capsys, *words, "--wire", wire)
    assert code == 1
    assert "A 20 A breaker lets 14 AWG overheat." in told


@pytest.mark.parametrize(
    ("already", "left"),
    [
        (["none"], "3 A for hours, or 3.75 A now and then"),
        (["0"], "3 A for hours, or 3.75 A now and then"),
        (["0 A"], "3 A for hours, or 3.75 A now and then"),
        (["1A"], "2 A for hours, or 2.5 A now and then"),
        (["1 A, continuous"], "2 A for hours, or 2.5 A now and then"),
        (["1 A, now and then"], "2.2 A for hours, or 2.75 A now and then"),
        (["1A", "1A"], "1 A for hours, or 1.25 A now and then"),
    ],
)
def test_what_is_on_it_already_is_taken_off(
    already: list[str], left: str, capsys: pytest.CaptureFixture[str]
):
    words = ["--chairs", "5", "--input", "1.8A", "--breaker", "15A", "--fastened", "no"]
    for load in already:
        words += ["--already", load]
    assert f"What more may be on it: {left}." in quick(capsys, *words)[1]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ([], "powerplan quick --chairs 5 --input 1.8A --breaker 15A"),
        (["--chairs", "5"], "--input"),
        (["--chairs", "5", "--input", "15"], "--input"),
        (["--chairs", "5", "--input", "130 W"], "--input"),
        (["--chairs", "5", "--input", "1,800 A"], "two ways"),
        (["--chairs", "5", "--input", "1A", "--continuous", "2A"], "more than the chair's whole"),
        (["--chairs", "5", "--input", "1A", "--wire", "7"], "14 AWG, 12 AWG"),
        (["--chairs", "5", "--input", "1A", "--already", "3A, maybe"], "now and then"),
        (["--chairs", "5", "--input", "9**9**9 A"], "--input"),
    ],
)
def test_what_cannot_be_read_is_bad_usage(
    words: list[str], said: str, capsys: pytest.CaptureFixture[str]
):
    code, out, err = quick(capsys, *words)
    assert (code, out) == (2, "")
    assert said in err


def test_the_answer_as_json(capsys: pytest.CaptureFixture[str]):
    words = ["--chairs", "5", "--input", "1.8A", "--breaker", "15A", "--format", "json"]
    code = main(["quick", *words])
    told = json.loads(capsys.readouterr().out)
    assert code == told["exit_code"] == 4
    assert told["if_continuous_a"] == 3
    assert told["question"]["already_a"] is None
    assert told["caution"] == CAUTION


def test_no_line_is_wider_than_eighty_columns(capsys: pytest.CaptureFixture[str]):
    main(["quick", "--chairs", "7", "--input", "2A"])
    assert max(map(len, capsys.readouterr().out.splitlines())) <= 80
