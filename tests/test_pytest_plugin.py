"""Path files as tests, in pytest runs of their own."""

from __future__ import annotations

import sys

import pytest

pytest_plugins = ["pytester"]

GRID = "grid: .23. .... ..4. .3.1\n"
SOUND = GRID + "steps:\nr2c1 = 3 because hidden single in b1\n"
SLIP = GRID + "title: ours\nsteps:\nr2c1 = 3 because hidden single in b2\n"


@pytest.fixture
def project(pytester: pytest.Pytester) -> pytest.Pytester:
    expected = SLIP.replace("b2", "b2  # expect: cell-outside-house stops-short")
    for name, content in {"sound": SOUND, "slip": SLIP, "expected": expected}.items():
        (pytester.mkdir(name) / f"{name}.path").write_text(content)
    return pytester


def test_nothing_is_collected_unasked(project: pytest.Pytester) -> None:
    assert project.runpytest_subprocess().ret == pytest.ExitCode.NO_TESTS_COLLECTED


def test_one_item_a_file_and_the_failure_as_our_text(project: pytest.Pytester) -> None:
    done = project.runpytest_subprocess("--stepwarrant")
    done.assert_outcomes(passed=2, failed=1)
    done.stdout.fnmatch_lines(
        [
            "*_ slip/slip.path _*",
            "slip/slip.path:4:1 error cell-outside-house (step 1)",
            "    4 | r2c1 = 3 because hidden single in b2",
            "      | ^^^^",
            "  r2c1 is not in box 2; it is in box 1.",
            "FAILED slip/slip.path::audit - slip/slip.path:4:1 error cell-outside-house*",
        ]
    )
    assert "Traceback" not in done.stdout.str() and "runtest" not in done.stdout.str()


def test_globs_in_the_configuration(project: pytest.Pytester) -> None:
    project.makeini("[pytest]\nstepwarrant_files = sound/*.path exp*\n")
    project.runpytest_subprocess().assert_outcomes(passed=2)
    project.makeini("[pytest]\nstepwarrant_files = *.path\n")
    project.runpytest_subprocess("slip").assert_outcomes(failed=1)


def test_expectations_are_honoured(project: pytest.Pytester) -> None:
    path = project.path / "expected" / "expected.path"
    path.write_text(path.read_text().replace("b2", "b1"))
    done = project.runpytest_subprocess("--stepwarrant", "expected")
    done.assert_outcomes(failed=1)
    done.stdout.fnmatch_lines(["expected/expected.path:4: expected cell-outside-house, which was not found"])


def test_bad_input_is_a_failure_in_one_line(project: pytest.Pytester) -> None:
    (project.path / "sound" / "sound.path").write_bytes(b"title: \xfc\n")
    done = project.runpytest_subprocess("--stepwarrant", "sound")
    done.assert_outcomes(failed=1)
    done.stdout.fnmatch_lines(["*sound.path: not UTF-8 text: byte 0xfc on line 1, column 8; save it as UTF-8"])
    assert "Traceback" not in done.stdout.str()


def test_with_xdist(project: pytest.Pytester) -> None:
    pytest.importorskip("xdist")
    done = project.runpytest_subprocess("--stepwarrant", "-n", "2")
    done.assert_outcomes(passed=2, failed=1)
    done.stdout.fnmatch_lines(["slip/slip.path:4:1 error cell-outside-house (step 1)"])


def test_it_can_be_switched_off(project: pytest.Pytester) -> None:
    assert project.runpytest_subprocess("-p", "no:stepwarrant").ret == pytest.ExitCode.NO_TESTS_COLLECTED
    assert project.runpytest_subprocess("-p", "no:stepwarrant", "--stepwarrant").ret == pytest.ExitCode.USAGE_ERROR


def test_nothing_heavy_is_imported_in_a_run_without_path_files(pytester: pytest.Pytester) -> None:
    pytester.makepyfile(
        """
        import sys

        def test_loaded():
            ours = {name for name in sys.modules if name.startswith("stepwarrant.")}
            assert ours == {"stepwarrant.checker", "stepwarrant.checker.pytest_plugin"}
            assert not {"lark", "pysat", "click", "jinja2"} & set(sys.modules)
        """
    )
    pytester.runpytest_subprocess("--stepwarrant").assert_outcomes(passed=1)


def test_the_library_is_still_imported_by_its_name() -> None:
    import stepwarrant.checker

    assert stepwarrant.checker.audit(SOUND).worst == "note"
    assert "stepwarrant.checker.report" in sys.modules
    with pytest.raises(AttributeError, match="no attribute 'audits'"):
        stepwarrant.checker.audits  # noqa: B018
