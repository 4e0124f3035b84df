"""python3 -m unittest discover -s tests/mutation -p '*_test.py'"""

import unittest

from mutants import mutants_of


def changes(text):
    return [(m.line, m.old(text), m.new) for m in mutants_of(text)]


class Mutants(unittest.TestCase):
    def test_operators_and_constants_change_in_code(self):
        self.assertEqual(
            changes("double a(double b) { return b * 0.5 + 2; }\n"),
            [(1, " * ", " / "), (1, "0.5", "0.625"), (1, " + ", " - "), (1, "2", "3")],
        )

    def test_comments_strings_includes_and_templates_stay(self):
        text = '#include "a < b"\n// 1 < 2\n/* a && b\n 3 */\ntemplate <class T, int n = 3>\nauto s = "x + 1 == 2";\n'
        self.assertEqual(changes(text), [])

    def test_comparisons_move_by_one(self):
        text = "bool a = b < c && d >= e;\n"
        self.assertEqual(
            changes(text), [(1, " < ", " <= "), (1, " && ", " || "), (1, " >= ", " > ")]
        )

    def test_a_condition_becomes_sure_and_impossible_and_is_turned(self):
        text = "  if (!done(a)) return b;\n"
        self.assertEqual(
            changes(text),
            [(1, "!", ""), (1, "!done(a)", "(false && (!done(a)))"), (1, "!done(a)", "(true || (!done(a)))")],
        )

    def test_a_condition_that_declares_is_left(self):
        self.assertEqual(changes("  if (const auto a = find(b)) use(a);\n"), [])

    def test_a_statement_goes(self):
        text = "void f() {\n  a.push(b);\n  c[d] = e;\n  return g(h);\n}\n"
        self.assertEqual(changes(text), [(2, "a.push(b);", ";"), (3, "c[d] = e;", ";")])

    def test_a_mutant_changes_its_place_alone(self):
        text = "int a = b + c;\nint d = e + f;\n"
        first, second = mutants_of(text)
        self.assertEqual(first.applied(text), "int a = b - c;\nint d = e + f;\n")
        self.assertEqual(second.applied(text), "int a = b + c;\nint d = e - f;\n")


if __name__ == "__main__":
    unittest.main()
