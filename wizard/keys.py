"""Every key of the wizard: its id, what it does in a word, and in a sentence."""

from __future__ import annotations

from textual.binding import Binding


def key(
    keys: str,
    action: str,
    word: str,
    says: str,
    *,
    shown: bool = False,
    display: str | None = None,
    first: bool = False,
) -> Binding:
    """One binding. word: for the footer. says: for help and tooltip. shown: stands in the footer."""
    return Binding(
        keys,
        action,
        word,
        show=shown,
        tooltip=says,
        id=f"{action.partition('(')[0].replace('_', '-')}.{keys.partition(',')[0]}",
        key_display=display,
        priority=first,
    )


APP = [
    key("question_mark", "help", "Help", "Explain this screen and its keys", shown=True, display="?"),
    key("q", "quit", "Quit", "Leave; everything is saved already", shown=True),
    key("v", "switch_theme", "View", "Switch between the dark and the bright view"),
]

BACK = key("escape", "back", "Back", "Go back to where you came from", shown=True, display="esc")

START = [
    key(
        "t",
        "door('terminations')",
        "Terminations",
        "One enclosure: every conductor, terminal, strip length and torque",
        shown=True,
    ),
    key(
        "r",
        "door('reach')",
        "Reach",
        "One cable: what it needs against what it has, with the working",
        shown=True,
    ),
    key(
        "c",
        "door('compare')",
        "Compare",
        "Two choices side by side: what the other one would change",
        shown=True,
    ),
    key(
        "L",
        "door('class')",
        "Class",
        "For a trainer: compare, demonstrate, tell a story, practise, print worksheets",
    ),
    key("n", "new", "New job", "Begin a job from an equipment sheet"),
    key("y", "copy", "Copy", "Begin another job as a copy of the one under the cursor"),
    key("s", "sample", "Sample", "Open a copy of an invented sample job"),
    key("g", "tour", "Tour", "Be shown round on an invented kitchen; nothing of it is kept"),
    key("w", "write_sheet", "Write sheet", "Write an equipment sheet from a maker's manual"),
]

STEPS = [
    key("n", "next_group", "Next", "Go to the next group of questions, then to the next step", shown=True),
    key("p", "previous_group", "Previous", "Go to the group of questions before"),
    key("u", "undo", "Undo", "Take the last answer back", shown=True),
    key("U", "redo", "Redo", "Give the answer again that was taken back"),
    key("f", "step('findings')", "Findings", "See what stops the work and what would cure it", shown=True),
    key(
        "s", "step('schedules')", "Schedules", "See the tables of terminations, cables, circuits and openings"
    ),
    key("d", "step('diagram')", "Diagram", "Write the proved drawing"),
    key("I", "step('interlocks')", "Interlocks", "See what each cause does, and what a fault would change"),
    key("T", "step('commissioning')", "Tests", "Take the commissioning tests in their order"),
    key("D", "diagnose", "Diagnose", "Find a fault by symptoms and readings, one at a time"),
    key("P", "step('print')", "Print", "Make the package that each person on site works from"),
    key(
        "t",
        "door('terminations')",
        "Terminations",
        "One enclosure: every conductor, terminal, strip length and torque",
    ),
    key("r", "door('reach')", "Reach", "One cable: what it needs against what it has, with the working"),
    key("c", "door('compare')", "Compare", "Two choices side by side: what the other one would change"),
    key(
        "L",
        "door('class')",
        "Class",
        "For a trainer: compare, demonstrate, tell a story, practise, print worksheets",
    ),
    key("down,up,enter", "enter_step", "Go in", "Put the cursor into the step"),
    key("e", "effect", "Effect", "Show all that the last answer changed"),
    key("right", "next_step", "Step", "Go to the next step"),
    key("left", "previous_step", "Step before", "Go to the step before"),
    key("M", "measure", "Measure", "Ask for one measurement at a time, large"),
    key("m", "units", "Units", "Show lengths as written, in feet and inches, or metric"),
    key(
        "tab", "other_pane", "Steps", "Go between the list of steps and the questions", shown=True, first=True
    ),
    key("escape", "back", "Back", "Close what is open, then go to the first screen"),
]

ROW = [
    key("enter", "answer", "Answer", "Answer this question", shown=True, display="⏎"),
    key("x", "clear", "Clear", "Take this answer out"),
    key("down,j", "down", "Down", "Go to the question below"),
    key("up,k", "up", "Up", "Go to the question above"),
]

TYPING = [
    key(
        "enter",
        "accept(False)",
        "Accept",
        "Accept the answer and go on to the next question",
        shown=True,
        display="⏎",
    ),
    key("escape", "leave", "Leave", "Stop typing; what is typed stays", shown=True, display="esc"),
    key("down", "accept(False)", "Accept", "Accept the answer and go on to the next question"),
    key("up", "accept(True)", "Accept", "Accept the answer and go to the question above"),
]

FINDING = [
    key("enter", "select", "Go", "Go to the answer that bears on this finding", shown=True, display="⏎"),
]

FINDINGS = [
    key(
        "a",
        "apply",
        "Apply",
        "Apply the first remedy; it was planned again and cures the finding",
        shown=True,
    ),
    key("i", "acknowledge", "Sign", "Acknowledge the finding with initials and a reason", shown=True),
    key("x", "reopen", "Reopen", "Take the acknowledgement of this finding back"),
    key("right_square_bracket", "more", "More", "Read on in what is known of this finding", display="]"),
    key("left_square_bracket", "less", "Less", "Read back in what is known of this finding", display="["),
]

STEP_LIST = [
    key("enter", "select", "Enter", "Go into this step", shown=True, display="⏎"),
]

START_LIST = [
    key("enter", "select", "Open", "Open the job, or begin one", shown=True, display="⏎"),
]

PICK_LIST = [
    key("enter", "select", "Choose", "Choose what the cursor stands on", shown=True, display="⏎"),
]

SCHEDULES = [
    key("slash", "search", "Search", "Show only rows that hold what you type", shown=True, display="/"),
    key("right_square_bracket", "next_schedule", "Table", "Show the next schedule", display="]"),
    key("l", "list", "List", "Choose a table from the list"),
    key("left_square_bracket", "previous_schedule", "Table before", "Show the schedule before", display="["),
]

DIAGRAM = [
    key("g", "screen.door('drawings')", "Look", "Show the drawings here, in characters", shown=True),
    key("w", "write", "Write", "Write the drawings as SVG and PNG beside the job's file"),
    key("o", "open", "Open", "Write the drawings and open the first in this computer's viewer"),
    key("escape", "stop", "Stop", "Stop drawing; nothing is written", display="esc"),
]

PRINT = [
    key("o", "open", "Open", "Open the first file that was written in this computer's viewer"),
    key("escape", "stop", "Stop", "Stop making the package; nothing is written", display="esc"),
]

BROWSE = [
    key("right_square_bracket", "next_thing", "Next", "Show the next one", shown=True, display="]"),
    key("left_square_bracket", "previous_thing", "Before", "Show the one before", display="["),
    key("escape", "back", "Back", "Go back to where you came from", shown=True, display="esc"),
]

DRAWINGS = [
    key("p", "picture", "Picture", "Show this drawing as it is printed, where the terminal can", shown=True),
]

ENCLOSURE = [
    key("space", "mark", "Landed", "Mark the row as landed and torqued, or take that back", shown=True),
    key("l", "large", "Large", "Show one row at a time, large", shown=True),
    key("slash", "search", "Search", "Show only rows that hold what you type", shown=True, display="/"),
]

LARGE = [
    key("space", "mark", "Landed", "Mark this end as landed and torqued, or take that back", shown=True),
    key("down,j,enter", "next_row", "Next", "Go to the next row", shown=True, display="↓"),
    key("up,k", "previous_row", "Before", "Go to the row before", shown=True, display="↑"),
    key("escape", "back", "Back", "Go back to the table", shown=True, display="esc"),
]

TOUR = [
    key("enter,right,space", "next_station", "Next", "Go to the next station", shown=True, display="⏎"),
    key("left", "previous_station", "Before", "Go to the station before", shown=True, display="←"),
    key("escape", "back", "Leave", "Leave the tour; nothing of it is kept", shown=True, display="esc"),
]

MEASURE = [
    key("up", "before", "Before", "Ask for the one before again", shown=True, display="↑"),
    key("escape", "back", "Stop", "Stop measuring; what was taken is saved", shown=True, display="esc"),
]

MEASURE_INPUT = [
    key("enter", "submit", "Take", "Take the number and ask for the next", shown=True, display="⏎"),
    key(
        "down",
        "screen.later",
        "Later",
        "Leave this one for later and ask for the next",
        shown=True,
        display="↓",
    ),
]


SEARCH = [
    key("enter", "submit", "Keep", "Keep these words and go to the rows", shown=True, display="⏎"),
    key("escape", "forget", "Forget", "Forget these words and show every row", shown=True, display="esc"),
]

PICK = [
    key("escape", "back", "Done", "Close the list", shown=True, display="esc"),
]

EFFECT = [
    key("escape,e", "back", "Back", "Go back to the questions", shown=True, display="esc"),
]

FORM = [
    key("escape", "back", "Back", "Go back; nothing is written or added", shown=True, display="esc"),
]

SHEET = [
    key("f", "mend", "To mend", "Go to the next thing that is wrong or missing", shown=True),
    key("p", "making", "Makes", "Show what the sheet makes with all that fits together", shown=True),
    key("u", "undo", "Undo", "Take the last entry back", shown=True),
    key("U", "redo", "Redo", "Give the entry again that was taken back"),
    key(
        "escape",
        "back",
        "Up",
        "Go up one level; from the top, to the first screen",
        shown=True,
        display="esc",
    ),
]

INTERLOCKS = [
    key("right", "next_effect", "Effect", "Go to the effect at the right"),
    key("left", "previous_effect", "Effect before", "Go to the effect at the left"),
    key("l", "large", "Large", "Show one state at a time, large"),
    key("b", "break_wire", "Break", "What if a wire is open: choose one", shown=True),
    key("w", "swap", "Swap", "What if two ends are swapped: choose them"),
    key("k", "stick", "Stick", "What if a contact is welded or stuck open: choose one"),
    key("x", "clear", "Clear", "Put everything right again"),
]

COMMISSIONING = [
    key("a", "accept", "Accept", "Accept a test that does not pass, with a reason"),
    key("o", "next_open", "Open", "Go to the next test that is not recorded yet"),
    key("x", "forget", "Forget", "Take this test out of the record"),
]

TEST_LINES = [
    key("enter", "select", "Take", "Write down what this test showed", shown=True, display="⏎"),
]

FOUND_INPUT = [
    key("enter", "submit", "Record", "Record what is typed and go to the next test", shown=True, display="⏎"),
    key(
        "escape", "leave", "Leave", "Stop writing down; nothing of it is recorded", shown=True, display="esc"
    ),
]

SEEK = [
    key("down", "down", "Down", "Go to the thing below", first=True),
    key("up", "up", "Up", "Go to the thing above", first=True),
    key("escape", "back", "Back", "Go back; nothing is chosen", shown=True, display="esc"),
]

SEEK_INPUT = [
    key("enter", "submit", "Choose", "Choose what the cursor stands on", shown=True, display="⏎"),
]

DIAGNOSE = [
    key("tab", "other", "Other", "Enter another symptom or reading", shown=True, first=True),
    key(
        "down", "skip", "Can't", "Leave this one: it can't be taken here", shown=True, display="↓", first=True
    ),
    key(
        "up", "take_back", "Take back", "Take the last one entered back", shown=True, display="↑", first=True
    ),
    key("p,ctrl+t", "pairs", "Pairs", "Look for two faults that explain it together", shown=True),
    key("escape", "back", "Back", "Stop and go back", shown=True, display="esc"),
]

SHOWS_INPUT = [
    key("enter", "submit", "Enter", "Enter what it shows", shown=True, display="⏎"),
]

COMPARE = [
    key("l", "large", "Large", "Show what changes step by step, large", shown=True),
    key("w", "write", "Draw", "Write the drawing of what differs, marked, beside the job's file", shown=True),
]

SLIDES = [
    key("right,down,space,enter", "next_slide", "Next", "Show the next slide", shown=True, display="→"),
    key("left,up", "previous_slide", "Before", "Show the slide before", shown=True, display="←"),
    key("m", "more", "More", "Show the lines that are below", shown=True),
    key("escape", "back", "Back", "Go back to where you came from", shown=True, display="esc"),
]

LESSON = [
    key("n", "number", "Number", "Change the number of the worksheet or practice", shown=True),
]

SEED_INPUT = [
    key("enter", "submit", "Take", "Take this number and go back to the list", shown=True, display="⏎"),
    key("escape", "leave", "Leave", "Go back to the list", shown=True, display="esc"),
]

STORY = [
    key("a", "add", "Add", "Write what happens next, after the scene in view", shown=True),
    key("x", "strike", "Strike", "Take the event in view out of the story", shown=True),
    key(
        "p",
        "picture",
        "Live",
        "Show which conductors are live now, drawn, where the terminal can",
        shown=True,
    ),
    key("w", "write", "Draw", "Write the drawing of what is live in this scene beside the job's file"),
    key("m", "more", "More", "Show the lines that are below", shown=True),
]

EVENT_INPUT = [
    key("enter", "submit", "Add", "Put this event behind the scene in view", shown=True, display="⏎"),
    key("escape", "leave", "Scenes", "Go back to the scenes", shown=True, display="esc"),
]

PRACTICE = [
    key("up", "before", "Before", "Ask for the one before again", shown=True, display="↑"),
    key("escape", "back", "Stop", "Stop practising", shown=True, display="esc"),
]

PRACTICE_INPUT = [
    key("enter", "submit", "Answer", "Give this answer and go to the next", shown=True, display="⏎"),
    key("down", "screen.later", "Later", "Leave this one and go to the next", shown=True, display="↓"),
    key("ctrl+e", "screen.finish", "Score", "Finish: show the score and what was wrong", shown=True),
]
