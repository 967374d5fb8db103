"""The documents, held to the program: what they list is there, what is there is listed, and the examples run."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
from pathlib import Path

import click
import pytest
from markdown_it import MarkdownIt

from guidec import cli
from guidec.cli import main
from guidec.commands.explain import TOPICS

REPOSITORY = Path(__file__).parent.parent
DOCUMENTS = sorted([*REPOSITORY.glob("*.md"), *(REPOSITORY / "docs").glob("*.md")])


def read(name: str) -> str:
    return (REPOSITORY / name).read_text(encoding="utf-8")


def commands() -> dict[str, click.Command]:
    group = cli._guidec
    context = click.Context(group)
    found = {name: group.get_command(context, name) for name in group.list_commands(context)}
    return {name: command for name, command in found.items() if command}


def section(command: str) -> str:
    """The part of docs/commands.md about one command."""
    found = re.search(rf"^## `guidec {command}\b.*?(?=^## |\Z)", read("docs/commands.md"), re.M | re.S)
    assert found, f"docs/commands.md says nothing of `guidec {command}`"
    return found[0]


@pytest.mark.parametrize("name", list(commands()))
def test_every_command_and_option_is_described(name: str):
    text = section(name)
    for parameter in commands()[name].params:
        if isinstance(parameter, click.Option):
            for option in parameter.opts:
                assert re.search(rf"`[^`\n]*(?<![\w-]){option}(?![\w-])", text), f"{name} {option}"
            if isinstance(parameter.type, click.Choice):
                assert "\\|".join(parameter.type.choices) in text, f"{name} {parameter.opts[-1]}: the choices"
        elif parameter.metavar:
            assert all(word in text for word in re.findall(r"[A-Z]+", parameter.metavar))


@pytest.mark.parametrize("name", list(commands()))
def test_every_option_described_is_there(name: str):
    known = {option for one in commands()[name].params for option in one.opts if option.startswith("-")}
    rows = re.findall(r"^\| (`-[^|]*)", section(name), re.M)
    described = {option for row in rows for option in re.findall(r"(?<![\w-])(--?[a-z][\w-]*)", row)}
    assert described <= known


def test_every_topic_that_can_be_explained_is_described():
    for topic in TOPICS:
        assert f"`guidec explain {topic}`" in section("explain")


def test_every_command_described_is_there():
    assert set(re.findall(r"^## `guidec (\w+)", read("docs/commands.md"), re.M)) == set(commands())


def test_every_output_is_in_the_readme_and_the_other_way_round(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    sample = REPOSITORY / "samples" / "head-torch" / "head-torch.md"
    main(["compile", str(sample), "-o", str(tmp_path), "--format", "json"])
    (guide,) = json.loads(capsys.readouterr().out)["guides"]
    named = {re.sub(r"(?<=^route-).*(?=\.html)", "PART", name) for name in guide["files"]}
    written = {f"{name.split('/')[0]}/" if "/" in name else name for name in named}
    table = read("README.md").partition("| file | what |")[2].partition("\n\n")[0]
    listed = {name for row in re.findall(r"^\| (`[^|]*)", table, re.M) for name in re.findall(r"`([^`]+)`", row)}
    assert written <= listed, "written and not in the README"
    elsewhere = listed - written
    assert elsewhere <= SOMETIMES, f"in the README and not written: {sorted(elsewhere - SOMETIMES)}"


SOMETIMES = {"score.json", "chapters.vtt", "chapters.txt"}
"""Outputs that a guide has only where its note gives cause."""


def blocks() -> list[tuple[str, str]]:
    found = []
    for document in DOCUMENTS:
        text = document.read_text(encoding="utf-8")
        for block in re.findall(r"^```sh run\n(.*?)^```$", text, re.M | re.S):
            found.append((document.name, block))
    return found


def test_there_are_examples_to_run():
    assert len(blocks()) >= 3


@pytest.mark.parametrize(("document", "block"), blocks())
def test_the_examples_run(document: str, block: str, tmp_path: Path):
    shutil.copytree(REPOSITORY / "samples", tmp_path / "samples")
    shell = tmp_path / "bin"
    shell.mkdir()
    (shell / "guidec").write_text(f'#!/bin/sh\nexec "{sys.executable}" -m guidec "$@"\n')
    (shell / "guidec").chmod(0o755)
    path = f"{shell}:/usr/local/bin:/usr/bin:/bin"
    run = subprocess.run(
        ["sh", "-euc", block],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
        env={"PATH": path, "HOME": str(tmp_path), "LANG": "C.UTF-8"},
    )
    assert run.returncode == 0, run.stdout[-3000:] + run.stderr
    assert "Traceback" not in run.stderr


def test_the_note_in_the_readme_is_clean_and_its_report_is_what_check_prints(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.chdir(tmp_path)
    note = re.search(r"^```markdown\n(.*?)^```$", read("README.md"), re.M | re.S)
    report = re.search(r"^```text\n(.*?)^```$", read("README.md"), re.M | re.S)
    assert note
    assert report
    (tmp_path / "kettle.md").write_text(note[1], encoding="utf-8")
    assert main(["check", "kettle.md"]) == 0
    assert capsys.readouterr().out == "clean\n"
    (tmp_path / "kettle.md").write_text(note[1].replace("Undo {screw A", "Undo 4 of {screw A"), encoding="utf-8")
    assert main(["check", "kettle.md"]) == 1
    assert capsys.readouterr().out == report[1]


@pytest.mark.parametrize("document", DOCUMENTS, ids=lambda path: path.name)
def test_links_between_documents_lead_somewhere(document: Path):
    tokens = MarkdownIt("commonmark").enable("table").parse(document.read_text(encoding="utf-8"))
    inner = [child for token in tokens for child in token.children or ()]
    targets = [str(one.attrs.get("href") or one.attrs.get("src") or "") for one in inner]
    for target in (target.partition("#")[0] for target in targets):
        if target and ":" not in target:
            assert (document.parent / target).exists(), target


def test_every_make_target_is_described():
    targets = set(re.findall(r"^\.PHONY: (.*)$", read("Makefile"), re.M)[0].split()) - {"clean", "lint", "types"}
    for target in targets:
        assert f"`make {target}`" in read("DEVELOPERS.md"), target


def test_the_version_of_the_changelog_is_the_programs():
    from guidec import __version__

    heads = re.findall(r"^## (\S+)", read("CHANGELOG.md"), re.M)
    assert heads[0] == "Unreleased" or heads[0] == __version__
