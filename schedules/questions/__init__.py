"""Every answer that a job asks for, declared once."""
