"""Has the program write quizzes that ask for every calculated family of a bank."""

import json
import re
import shutil
import subprocess
import tempfile
import xml.etree.ElementTree as ElementTree
from collections import Counter
from pathlib import Path

_BANK = "{urn:footroom:bank}"
_QUESTIONS_IN_A_SECTION = 100  # at most, see bank.xsd


def is_calculated(item):
    """Whether an item's answer rests on a value, a calculation or a formula.

    Only the form of the item counts here; no formula is read.
    """
    if item.get("kind") == "number":
        return True
    if any(item.find(_BANK + part) is not None
           for part in ("draw", "calculation", "let", "answer")):
        return True
    options = item.iter(_BANK + "option")
    return any(option.get("right", "true") not in ("true", "false") or
               not re.fullmatch(r"\d+", option.get("rank", "0")) for option in options)


def calculated_families(bank):
    """Files of the calculated items, by id."""
    families = {}
    for file in sorted(Path(bank, "items").glob("*/*.xml")):
        item = ElementTree.parse(file).getroot()
        if is_calculated(item):
            families[item.get("id")] = file
    return families


class NoQuiz(Exception):
    """The program did not write a quiz."""


class CalculatedBank:
    """A copy of a bank that holds the calculated families only, with a blueprint for all."""

    def __init__(self, bank):
        self._folder = tempfile.TemporaryDirectory()
        self.path = Path(self._folder.name, "bank")
        shutil.copytree(bank, self.path)
        families = calculated_families(self.path)
        for file in self.path.glob("items/*/*.xml"):
            if file.stem not in families:
                file.unlink()
        sections = []
        for topic, count in Counter(file.parent.name for file in families.values()).items():
            if count > _QUESTIONS_IN_A_SECTION:
                raise ValueError(f"topic {topic} has more items than a section can ask for")
            sections.append(f'<section topic="{topic}" questions="{count}"/>')
        text = "<en>Every calculated family</en><es>Todas las familias calculadas</es>"
        (self.path / "blueprints/every-calculated.xml").write_text(
            '<blueprint xmlns="urn:footroom:bank" id="every-calculated" minutes="60" '
            f'same-items="true"><title>{text}</title><course>{text}</course>'
            f'{"".join(sections)}</blueprint>', encoding="utf-8")

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self._folder.cleanup()


def make_quiz(program, bank, seed, sheets, units, language):
    """The content of the quiz.json that the program writes; the other files are dropped."""
    with tempfile.TemporaryDirectory() as folder:
        made = subprocess.run(
            [program, "quiz", "--bank", bank, "--blueprint", "every-calculated",
             "--seed", str(seed), "--sheets", str(sheets), "--units", units,
             "--language", language, "--date", "2026-03-02", "--out", folder],
            capture_output=True, text=True, check=False)
        if made.returncode != 0:
            raise NoQuiz(f"no quiz for seed {seed}, units {units}, language {language}:\n"
                         f"{made.stderr}")
        return json.loads(Path(folder, "quiz.json").read_text(encoding="utf-8"))
