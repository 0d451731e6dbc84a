"""Quizzes of the real bank as QTI packages."""
import json
import subprocess


def editions():
    """Options that show every kind of question, both languages and unit systems."""
    return [
        ["--blueprint", "term-test", "--language", "en", "--units", "us"],
        ["--blueprint", "term-test", "--language", "es", "--units", "si"],
        ["--language", "es", "--units", "us", "--decimal-mark", "comma", "--without-figures"],
        ["--language", "en", "--units", "si", "--blueprint", "entry-check", "--swap", "2"],
    ]


def export(program, folder, options):
    """The path of the package, and the quiz."""
    name = str(editions().index(options))
    made = folder / f"quiz-{name}"
    run = lambda *words: subprocess.run([program, *words], check=True, capture_output=True)
    run("quiz", "--seed", "20261124", "--date", "2026-11-24", "--sheets", "3", "--out", str(made),
        *options)
    path = folder / f"quiz-{name}.zip"
    run("export", "qti", str(made), "--out", str(path))
    return path, json.loads((made / "quiz.json").read_text(encoding="utf-8"))
