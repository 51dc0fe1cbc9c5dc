"""KB1: what can be wrong with the form of a file, whatever it is about."""

from __future__ import annotations

from typing import Final

from kbtools.reading.limits import MAX_BYTES, MAX_DEPTH, MOST_ENTRY_BYTES, MOST_SYSTEMS
from kbtools.rules.rule import Rule, Sample

FORM: Final = (
    Rule(
        code="KB101",
        title="Not readable",
        severity="error",
        what="A file that is not YAML, cannot be opened or holds a control character.",
        why="Nothing of it can be used until it can be read.",
        sample=Sample(
            path="faults/charging/lamp-flickers.yml",
            instead_of="title: Charge lamp flickers in the rain",
            bad="title: Charge lamp: flickers in the rain",
            good='title: "Charge lamp: flickers in the rain"',
        ),
    ),
    Rule(
        code="KB102",
        title="Key twice",
        severity="error",
        what="The same key twice in one mapping.",
        why="Only one of the two could count, and nobody would notice which.",
        sample=Sample(
            path="faults/charging/lamp-flickers.yml",
            instead_of="related: [battery-flat]",
            bad="related: []\nrelated: [battery-flat]",
            good="related: [battery-flat]",
        ),
    ),
    Rule(
        code="KB103",
        title="Anchor or alias",
        severity="error",
        what="A value that is named with & or repeated with *.",
        why="An entry must be readable on its own, line by line, by people who do not know YAML.",
        sample=Sample(
            path="faults/charging/lamp-flickers.yml",
            instead_of="    access: [seat-off]\nsources",
            bad="    access: &way [seat-off]\nsources",
            good="    access: [seat-off]\nsources",
        ),
    ),
    Rule(
        code="KB104",
        title="Tag",
        severity="error",
        what="A YAML tag, a word with ! before a value.",
        why="The schema says what kind of value stands where; a tag could only contradict it.",
        sample=Sample(
            path="faults/charging/lamp-flickers.yml",
            instead_of="title: Charge lamp flickers in the rain",
            bad="title: !!str Charge lamp flickers in the rain",
            good="title: Charge lamp flickers in the rain",
        ),
    ),
    Rule(
        code="KB105",
        title="Directive",
        severity="error",
        what="A YAML directive, a line that starts with %.",
        why="Entries need none, and tools read them differently.",
        sample=Sample(
            path="faults/charging/lamp-flickers.yml",
            instead_of="title: Charge lamp flickers in the rain",
            bad="%YAML 1.2\n---\ntitle: Charge lamp flickers in the rain",
            good="title: Charge lamp flickers in the rain",
        ),
    ),
    Rule(
        code="KB106",
        title="Not UTF-8",
        severity="error",
        what="A file that is saved in another encoding than UTF-8.",
        why="Degree signs and accents would come out as other characters.",
        sample=Sample(
            path="faults/charging/lamp-flickers.yml",
            instead_of="title: Charge lamp flickers in the rain",
            bad="title: Charge lamp flickers at 5 °C",
            good="title: Charge lamp flickers at 5 °C",
            encoding="latin-1",
        ),
    ),
    Rule(
        code="KB107",
        title="Tab indentation",
        severity="error",
        what="A tab where spaces should indent.",
        why="YAML does not allow it, since a tab is as wide as each editor likes.",
        sample=Sample(
            path="faults/charging/lamp-flickers.yml",
            instead_of="sources:\n  - {kind",
            bad="sources:\n\t- {kind",
            good="sources:\n  - {kind",
        ),
    ),
    Rule(
        code="KB108",
        title="Several documents",
        severity="error",
        what="A second document in one file.",
        why="One file is one entry: its name is the entry's id.",
        sample=Sample(
            path="faults/charging/lamp-flickers.yml",
            instead_of="related: [battery-flat]",
            bad="---\nrelated: [battery-flat]",
            good="related: [battery-flat]",
        ),
    ),
    Rule(
        code="KB109",
        title="File in the wrong place",
        severity="error",
        what="A file in a folder where it does not belong, or with a name that is no id.",
        why="The name and the folder are the entry's id and kind; it would not be found.",
        sample=Sample(
            path="faults/charging/Lamp_dim.yml",
            instead_of="",
            bad="title: Horn silent\nsystem: charging\ndraft: true\n",
            good="title: Horn silent\nsystem: charging\ndraft: true\n",
            good_path="faults/charging/lamp-dim.yml",
        ),
    ),
    Rule(
        code="KB110",
        title="Too large or too deep",
        severity="error",
        what=(
            f"A file of more than {MAX_BYTES:,} bytes, a model, a fault, a case or a page of more than "
            f"{MOST_ENTRY_BYTES:,}, or one that is nested more than {MAX_DEPTH} levels deep."
        ),
        why="No entry needs it; it would make reading slow for everybody.",
        sample=Sample(
            path="faults/charging/lamp-flickers.yml",
            instead_of="related: [battery-flat]",
            bad="related: [[[[[[[[[[[[[[[[[[[[[[[[[[[[[[]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]",
            good="related: [battery-flat]",
        ),
    ),
    Rule(
        code="KB111",
        title="Empty file",
        severity="error",
        what="A file without any content.",
        why="It would be an entry that says nothing.",
        sample=Sample(
            path="faults/charging/lamp-dim.yml",
            instead_of="",
            bad="# to be written\n",
            good="title: Horn silent\nsystem: charging\ndraft: true\n",
        ),
    ),
    Rule(
        code="KB112",
        title="Key that is no word",
        severity="error",
        what="A list or a mapping where a key should stand.",
        why="Usually a text that starts with a bracket and lacks its quotes.",
        sample=Sample(
            path="faults/charging/lamp-flickers.yml",
            instead_of="    do: Pull the plug and look for green terminals.",
            bad="    ? [do]\n    : Pull the plug and look for green terminals.",
            good="    do: Pull the plug and look for green terminals.",
        ),
    ),
    Rule(
        code="KB113",
        title="File missing",
        severity="error",
        what="A knowledge base without club.yml, systems.yml or cautions.yml.",
        why="Entries refer to what stands there; nothing could be checked.",
        sample=Sample(
            path="cautions.yml",
            instead_of="",
            bad=None,
            good="cautions:\n  - {id: battery-gas, text: A charging battery gives off gas that burns.}\n",
        ),
    ),
    Rule(
        code="KB114",
        title="Picture that cannot be published",
        severity="error",
        what="A picture that is none, is another kind of picture than its name says, moves, or is too large.",
        why="Pictures are drawn anew without what a camera writes beside them, such as the place; this one cannot be.",
        sample=None,
    ),
    Rule(
        code="KB115",
        title="Conflict of two versions",
        severity="error",
        what="The lines of <, = and > signs that git leaves where two people have changed the same place.",
        why="Both versions stand there; which one holds, only a person can say.",
        sample=Sample(
            path="faults/charging/lamp-flickers.yml",
            instead_of="related: [battery-flat]",
            bad="<<<<<<< HEAD\nrelated: [battery-flat]\n=======\nrelated: []\n>>>>>>> another",
            good="related: [battery-flat]",
        ),
    ),
    Rule(
        code="KB116",
        title="Text cut off by #",
        severity="error",
        what="A text without quotes in which a # stands behind a space and at its word: plug #3.",
        why="YAML takes the rest of the line for a comment, and the page shows half of the sentence.",
        sample=Sample(
            path="faults/charging/lamp-flickers.yml",
            instead_of="do: Pull the plug and look for green terminals.",
            bad="do: Pull plug #3 and look for green terminals.",
            good='do: "Pull plug #3 and look for green terminals."',
        ),
    ),
    Rule(
        code="KB120",
        title="Text that Markdown cannot take",
        severity="error",
        what=(
            "A text or a page with a paragraph of thousands of characters or of dozens of brackets, with a dozen "
            "quotes and lists inside each other, or with hundreds of headings, boxes or cells of tables."
        ),
        why="Making a page of it would take minutes; most often a sign stands there by mistake.",
        sample=Sample(
            path="faults/charging/lamp-flickers.yml",
            instead_of="why: A flat battery stops the engine.",
            bad='why: ">>>>>>>>>>>>>>> A flat battery stops the engine."',
            good="why: A flat battery stops the engine.",
        ),
    ),
    Rule(
        code="KB121",
        title="Knowledge base that is too large",
        severity="error",
        what="More files, bytes or systems in the whole knowledge base, or more files of a kind, than any club has.",
        why="Checking and building it would take hours; most often a folder came into it that does not belong there.",
        sample=Sample(
            path="systems.yml",
            instead_of="components:\n",
            bad="".join(f"  - {{id: spare-{at}, name: Spare {at}}}\n" for at in range(3, MOST_SYSTEMS + 2))
            + "components:\n",
            good="  - {id: spare-3, name: Spare 3}\ncomponents:\n",
        ),
    ),
)
"""By code. They have no check of their own: reading finds them."""
