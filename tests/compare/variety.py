"""Whether the answers say enough to be worth comparing: risks that are neither nought nor one, verdicts of every kind,
few errors."""

import json
from collections import Counter


def numbers_of(kind, risk):
    middle = ["middling"] if 0.02 < risk < 0.98 else []
    return [f"{kind} risks", *(f"{kind} {word}" for word in middle)]


def told_by_morning(answer):
    for graft in answer["grafts"]:
        yield from numbers_of("morning", graft["risk"]["p"])
        yield f"urgency {graft['urgency']}"
        yield f"advice {graft['advice']['action']}"


def told_by_since(answer):
    for graft in answer["grafts"]:
        yield f"advised {graft['verdict']}"


def told_by_when(answer):
    for candidate in answer["candidates"]:
        yield f"verdict {candidate['verdict']}"


def told_by_why(answer):
    if "loss" in answer:
        yield from numbers_of("why", answer["loss"]["p"])
        yield f"outcome {answer['graft']['outcome']}"


TOLD = {"morning": told_by_morning, "since": told_by_since, "when": told_by_when, "why": told_by_why}


def is_told(question, answer):
    return (question.command in TOLD and answer["exit_code"] == 0 and "--season" not in question.arguments and
            answer["stdout"].startswith("{"))


def tally(questions, answers):
    """Counts of what these answers say."""
    counts = Counter()
    for question, answer in zip(questions, answers):
        counts[f"command {question.command}"] += 1
        counts[f"exit {answer['exit_code']}"] += 1
        if is_told(question, answer):
            counts.update(TOLD[question.command](json.loads(answer["stdout"])))
    return counts


def of_kind(counts, kind):
    """`3 go, 4 wait`, the most frequent first."""
    named = [(key.removeprefix(kind + " "), count) for key, count in counts.most_common() if key.startswith(kind + " ")]
    return ", ".join(f"{count} {name}" for name, count in named)


def share_of_middling(counts, kind):
    total = counts[f"{kind} risks"]
    return f"{counts[f'{kind} middling']} of {total} ({100 * counts[f'{kind} middling'] / max(1, total):.0f} %)"


def summary(counts):
    return [f"commands: {of_kind(counts, 'command')}",
            f"exit codes: {of_kind(counts, 'exit')}",
            f"risks strictly between 0.02 and 0.98: {share_of_middling(counts, 'morning')} of morning, "
            f"{share_of_middling(counts, 'why')} of why",
            f"urgency: {of_kind(counts, 'urgency')}; advice: {of_kind(counts, 'advice')}",
            f"verdicts of since: {of_kind(counts, 'advised')}",
            f"verdicts of when: {of_kind(counts, 'verdict')}; outcomes of why: {of_kind(counts, 'outcome')}"]
