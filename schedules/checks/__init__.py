"""What must hold in every plan: one module per subject, each from derived facts to findings."""
