"""Verdicts by a limit of the rule set."""

from families import Choice, family


@family("is-fall-protection-required")
def is_fall_protection_required(given):
    height, trigger = given["height"], given.limit("trigger-height")
    gap = abs(height - trigger)
    return Choice("required" if height >= trigger else "not-required", {
        "required": gap, "not-required": gap,
    })


@family("is-the-user-within-the-criteria")
def is_the_user_within_the_criteria(given):
    body, tools, below = given["body"], given["tools"], given.limit("user-mass")
    gap = abs(below - (body + tools))
    return Choice("within" if body + tools < below else "above", {
        "within": gap, "above": gap,
        "body-only": below - body,
        "tools-off": below - (body - tools),
    })
