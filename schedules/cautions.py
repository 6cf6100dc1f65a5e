"""The cautions that every package and the wizard's first and last screens carry."""

from __future__ import annotations

CAUTIONS = (
    "Mains voltage, gas, fire and a heavy hood: each can kill.",
    "The maker's manual, the local code and the authority having jurisdiction come first, this program after them.",
    "A licensed electrician wires and a licensed gas fitter pipes; whoever signs for the work checks every page.",
    "Switch off, lock and test dead before touching a conductor.",
    "What was not measured is not known: a missing number is never filled in here.",
)
"""Short sentences, the most serious first."""

CAUTION = (
    "CAUTION: mains voltage, gas, fire and a heavy hood can kill. The maker's manual, the local code and its "
    "authority (AHJ), and a licensed electrician or gas fitter come first."
)
"""All of it in a breath: the first and the last lines of every listing."""

ON_A_DRAWING = (
    "Isolate and prove dead before touching. The maker's manual, the local code and its authority come first."
)
"""What fits into a drawing's footer."""
