"""A lesson on screen: a hole that answers while the aim is dragged, served to a browser from this machine.

``opened.py`` is what was opened, ``view.py`` what a tab looks at, ``answers.py`` asks the core about it, ``tab.py``
talks with one tab, ``server.py`` serves the page and ``guards.py`` says who may have it. Needs the extra ``lesson``.
"""
