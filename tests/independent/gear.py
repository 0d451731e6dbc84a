"""Kits and their inspection, by the rule restated."""

from counting import all_together
from families import Choice, family

# 1926.502(d)(5), (10)(i), (16)(iii), (17), (19) and (21); for finds without a figure in the rule,
# the instructions of makers (common practice)
DAMAGE = {"absorber", "fall", "cut", "burn", "stitch", "rust", "bent", "label", "knot", "stain"}
WRONG_SET_UP = {"belt", "side", "gate", "upside", "shared"}
HARMLESS = {"none", "dust", "dew", "damp", "color", "faded", "set", "arrow", "two", "back", "paint",
            "new", "name"}


def takes_out(find):
    """Whether a find takes a kit out of service; every find must be known here."""
    if find in HARMLESS:
        return False
    if find in DAMAGE | WRONG_SET_UP:
        return True
    raise ValueError(f"nobody has judged the find {find}")


@family("which-find-takes-the-kit-out")
def which_find_takes_the_kit_out(given):
    return Choice({find for find in given.options if takes_out(find)})


@family("which-find-is-no-reason")
def which_find_is_no_reason(given):
    return Choice({find for find in given.options if not takes_out(find)})


@family("is-the-kit-in-service")
def is_the_kit_in_service(given):
    needed = all_together(given.count("persons"), given.limit("anchor-strength-per-person"))
    against = {
        "heavy": given["mass"] > given["capacity"],
        "rope": abs(given["rope"] - given["made-for"]) > given["play"],
        "anchor": given["anchor"] < needed,
        "find": takes_out(given.word("find")),
    }
    reasons = [reason for reason, holds in against.items() if holds] or ["none"]
    right, = reasons  # with two reasons, two verdicts would be right
    return Choice(right)


@family("kits-that-stay-on-the-ground")
def kits_that_stay_on_the_ground(given):
    anchors = all_together(given.count("persons"), given.limit("anchor-strength-per-person"))
    made_for, play = given["made-for"], given["play"]
    against = {
        "kit-1": given["mass"] > given["capacity"],
        "kit-2": abs(given["rope"] - made_for) > play,
        "kit-3": given["hook"] < given.limit("connector-strength"),
        "kit-4": given["opening"] < given["eye"],
        "kit-5": given["anchor"] < anchors,
    }
    return Choice({kit for kit, holds in against.items() if holds}, {
        "kit-1": [given["mass"], given["capacity"]],
        "kit-2": [given["rope"], made_for - play, made_for + play],
        "kit-3": given["hook"],
        "kit-4": [given["opening"], given["eye"]],
        "kit-5": [given["anchor"], given.count("persons")],
    })
