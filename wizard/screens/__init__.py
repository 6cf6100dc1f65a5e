"""The screens, each with its own style sheet beside it."""
