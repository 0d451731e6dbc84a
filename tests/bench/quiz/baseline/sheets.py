#!/usr/bin/python3
"""What a handy instructor would write instead: sheets and keys with Jinja2 and a Markdown library.

Use: sheets.py QUIZ-FOLDER NEW-FOLDER [markdown|markdown-it]

It is given everything that is hard: the questions with answers, mistakes and steps (quiz.json), and
the finished figures. It writes the same kinds of files: a sheet and a key for each seat in Markdown
and HTML with figures and mathematics inside, the figures, and both collections. Templates are
compiled once and nothing is worked out twice.
"""
import html
import json
import pathlib
import re
import sys

import jinja2

HERE = pathlib.Path(__file__).parent


def library(name):
    if name == "markdown-it":
        from markdown_it import MarkdownIt

        return MarkdownIt("commonmark").render
    import markdown

    converter = markdown.Markdown()
    return lambda text: converter.reset().convert(text)


def mathml(tree):
    (kind, parts), = tree.items()
    leaf = {"identifier": "mi", "number": "mn", "sign": "mo"}.get(kind)
    if leaf:
        return f"<{leaf}>{html.escape(parts)}</{leaf}>"
    inner = "".join(map(mathml, parts))
    if kind in ("fence", "absolute"):
        left, right = ("(", ")") if kind == "fence" else ("|", "|")
        return f"<mrow><mo>{left}</mo>{inner}<mo>{right}</mo></mrow>"
    tag = {"row": "mrow", "fraction": "mfrac", "root": "msqrt", "power": "msup",
           "subscript": "msub"}[kind]
    return f"<{tag}>{inner}</{tag}>"


def main():
    source, target = map(pathlib.Path, sys.argv[1:3])
    convert = library(sys.argv[3] if len(sys.argv) > 3 else "markdown")
    environment = jinja2.Environment(loader=jinja2.FileSystemLoader(HERE), trim_blocks=True,
                                     lstrip_blocks=True)
    environment.globals["mathml"] = mathml
    pages = {face: environment.get_template(face + ".md.jinja") for face in ("sheet", "key")}
    frame = environment.get_template("page.html.jinja")
    quiz = json.loads((source / "quiz.json").read_text())
    (target / "figures").mkdir(parents=True)
    collections = {face: (target / f"all-{face}s.html").open("w") for face in pages}
    for sheet in quiz["sheets"]:
        for face, template in pages.items():
            suffix = "" if face == "sheet" else "-key"
            figures = {}
            for question in sheet["questions"]:
                name = f"figures/{sheet['seat']}-{question['number']}{suffix}.svg"
                if (source / name).exists():
                    figures[question["number"]] = name
                    (target / name).write_text((source / name).read_text())
            text = template.render(quiz=quiz, sheet=sheet, figures=figures, in_html=False)
            (target / f"{face}-{sheet['seat']}.md").write_text(text)
            body = convert(template.render(quiz=quiz, sheet=sheet, figures=figures, in_html=True))
            for name in figures.values():
                svg = (target / name).read_text().split("\n", 1)[1]
                body = re.sub(rf'<img [^>]*src="{re.escape(name)}"[^>]*/?>', lambda _: svg, body,
                              count=1)
            page = frame.render(title=f"{quiz['title']} {sheet['code']}", body=body)
            (target / f"{face}-{sheet['seat']}.html").write_text(page)
            collections[face].write(body)
    for file in collections.values():
        file.close()


main()
