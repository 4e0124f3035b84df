"""That the comparison sees what differs and nothing else, and that the made sites are varied and always the same."""

import contextlib
import io
import json
import tempfile
import unittest
from pathlib import Path

import compare
import made_diary
import made_grafts
import records
from case import Case, Question
from differences import differences
from made_site import begun, drawn_spots, made_site
from questions import questions_about


def answer(out, exit_code=0, err="", files=None):
    text = out if isinstance(out, str) else json.dumps(out)
    return {"exit_code": exit_code, "stdout": text, "stderr": err} | ({} if files is None else {"files": files})


def paths(before, after, tolerance=1e-9):
    return [difference.path for difference in differences(before, after, tolerance)]


class Differences(unittest.TestCase):
    def test_equal_answers_have_none(self):
        self.assertEqual(paths(answer({"a": [1, "x", None]}), answer({"a": [1.0, "x", None]})), [])

    def test_the_drawn_id_of_a_new_line_is_none_but_another_event_is(self):
        def noted(line_id, event):
            return answer({"notes": [{"id": line_id}]}, files={"diary.csv": f"2025-06-09,C2,{event},,,{line_id},,\n"})
        self.assertEqual(paths(noted("ujhmwgryoirz", "bag-on"), noted("zwjkzzw5jsy6", "bag-on")), [])
        self.assertEqual(paths(noted("ujhmwgryoirz", "bag-on"), noted("zwjkzzw5jsy6", "bag-off")),
                         ["files/diary.csv line 1"])

    def test_the_order_of_members_is_none_but_that_of_an_array_is(self):
        self.assertEqual(paths(answer('{"a": 1, "b": 2}'), answer('{"b": 2, "a": 1}')), [])
        self.assertEqual(paths(answer({"a": ["x", "y"]}), answer({"a": ["y", "x"]})), ["$.a[0]", "$.a[1]"])

    def test_a_number_differs_beyond_the_tolerance_only(self):
        before = answer({"grafts": [{"risk": {"p": 0.25}}]})
        self.assertEqual(paths(before, answer({"grafts": [{"risk": {"p": 0.25 * (1 + 1e-10)}}]})), [])
        beyond = answer({"grafts": [{"risk": {"p": 0.25 * (1 + 1e-8)}}]})
        self.assertEqual(paths(before, beyond), ["$.grafts[0].risk.p"])
        self.assertEqual(paths(before, beyond, tolerance=1e-7), [])

    def test_nought_and_a_tiny_number_differ(self):
        self.assertEqual(paths(answer({"a": 0}), answer({"a": 1e-300})), ["$.a"])

    def test_a_number_differs_from_a_truth_value_a_text_and_null(self):
        for other in (True, "1", None, [1], {}):
            self.assertEqual(paths(answer({"a": 1}), answer({"a": other})), ["$.a"])

    def test_members_and_elements_that_lack_are_named(self):
        self.assertEqual(paths(answer({"a": 1, "b": 2}), answer({"a": 1, "c": 2})), ["$.b", "$.c"])
        self.assertEqual(paths(answer({"a": [1, 2]}), answer({"a": [1]})), ["$.a.length"])

    def test_text_differs_by_line(self):
        self.assertEqual(paths(answer("x\ny\nz\n"), answer("x\nw\nz\n")), ["$ line 2"])
        self.assertEqual(paths(answer("x\ny\n"), answer("x\nw\ny\n")), ["$ lines", "$ line 2"])

    def test_a_number_in_text_differs_however_little(self):
        self.assertEqual(paths(answer("risk 12 %"), answer("risk 12.0 %")), ["$ line 1"])

    def test_exit_code_and_standard_error_count(self):
        self.assertEqual(paths(answer("", 65, "no"), answer("", 66, "yes")), ["exit_code", "stderr line 1"])
        self.assertEqual(paths(answer("", 65, '{"line": 3}'), answer("", 65, '{"line": 4}')), ["stderr.line"])

    def test_files_count_that_were_written_changed_or_left(self):
        before = answer("", files={"site/diary.csv": "a\nb\n", "site/learned.json": '{"x": 1.0}'})
        self.assertEqual(paths(before, before), [])
        after = answer("", files={"site/diary.csv": "a\nc\n", "site/grafts.csv": None})
        self.assertEqual(paths(before, after),
                         ["files/site/diary.csv line 2", "files/site/grafts.csv", "files/site/learned.json"])


class MadeSites(unittest.TestCase):
    def test_are_the_same_every_time_and_others_with_another_seed(self):
        first, again, other = made_site(1, 4), made_site(1, 4), made_site(2, 4)
        self.assertEqual(first.files, again.files)
        self.assertEqual(questions_about(first, 1, 4), questions_about(again, 1, 4))
        self.assertNotEqual(first.files, other.files)

    def test_hold_every_species_method_setting_and_word_of_the_diary(self):
        grafts, lines = [], []
        for number in range(200):
            site = begun(1, number)
            site.spots = drawn_spots(site.rng)
            made_grafts.draw(site)
            made_diary.draw(site)
            grafts += site.grafts
            lines += site.diary
        for column, known in (("species", made_grafts.TEMPERATE + made_grafts.WARM), ("method", made_grafts.METHODS),
                              ("scion_state", made_grafts.STATES), ("wrap", made_grafts.WRAPS),
                              ("cover", made_grafts.COVERS), ("tip", ["sealed", "open"])):
            self.assertLessEqual(set(known), {graft[column] for graft in grafts}, column)
        words = {*made_diary.DONE, *made_diary.SEEN_WELL, *made_diary.SEEN_ILL, "shade", "watered", "moved", "split",
                 "void", "taken", "dead"}
        self.assertEqual({line["event"] for line in lines}, words)


class Programs(unittest.TestCase):
    """Made-up ones, which answer everything alike."""

    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = Path(folder.name)

    def program(self, name, script):
        path = self.folder / name
        path.write_text(f"#!/bin/sh\n{script}\n")
        path.chmod(0o755)
        return str(path)

    def run_compare(self, *words):
        options = compare.checked(compare.arguments(), [*words, "--jobs", "1", "--sites", "1", "--only", "spots"])
        out = io.StringIO()
        with contextlib.redirect_stdout(out):
            code = compare.run(options)
        return code, out.getvalue()

    def test_that_answer_alike_pass(self):
        one = self.program("one", "echo '{\"a\": 1}'")
        code, out = self.run_compare("--before", one, "--after", one)
        self.assertEqual(code, 0)
        self.assertRegex(out, r"[1-9]\d* answers compared, 0 differ")

    def test_that_differ_are_told_with_question_and_path(self):
        one, other = self.program("one", "echo '{\"a\": 1}'"), self.program("other", "echo '{\"a\": 1.1}'")
        code, out = self.run_compare("--before", one, "--after", other)
        self.assertEqual(code, 1)
        self.assertIn("--site site --at 2025-06-09T06:30 spots --json\n    $.a: 1 -> 1.1\n", out)
        self.assertEqual(self.run_compare("--before", one, "--after", other, "--ignore-path", r"^\$\.a$")[0], 0)

    def test_that_write_where_nothing_is_to_be_written_are_found(self):
        one, other = self.program("one", "true"), self.program("other", "touch site/left")
        code, out = self.run_compare("--before", one, "--after", other)
        self.assertEqual(code, 1)
        self.assertIn("files/site/left", out)

    def test_are_compared_with_kept_answers_of_earlier_ones(self):
        one, other = self.program("one", "echo '{\"a\": 1}'"), self.program("other", "echo '{\"a\": 2}'")
        kept = str(self.folder / "kept")
        self.assertEqual(self.run_compare("--before", one, "--record", kept)[0], 0)
        self.assertEqual(self.run_compare("--after", one, "--against", kept)[0], 0)
        self.assertEqual(self.run_compare("--after", other, "--against", kept)[0], 1)


class Clock(unittest.TestCase):
    def test_counts_unless_the_question_is_put_as_of_now(self):
        options = compare.arguments().parse_args([])
        now, then = Question("weather fetch", ["weather", "fetch"]), Question("morning", ["morning"], "2025-06-09")
        early, late = answer({"as_of": "2026-01-01T00:00:00Z"}), answer({"as_of": "2026-01-01T00:05:00Z"})
        self.assertEqual(compare.differing_of(now, early, late, options), [])
        self.assertNotEqual(compare.differing_of(then, early, late, options), [])


class Records(unittest.TestCase):
    def test_give_back_what_was_kept(self):
        question = Question("note", ["note"], changes={"a": None})
        case = Case("site-000", {"diary.csv": "when\nü\udcff\n"}, [question], 16)
        answers = [answer("\udcff", files={"site/a": None})]
        with tempfile.TemporaryDirectory() as folder:
            records.keep(Path(folder), case, answers)
            self.assertEqual(records.kept_names(Path(folder)), ["site-000"])
            self.assertEqual(records.kept(Path(folder), "site-000"), (case, answers))


if __name__ == "__main__":
    unittest.main()
