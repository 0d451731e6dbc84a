"""Brings in every module that registers independent answers."""

import anchors_and_ladder  # noqa: F401
import arrest_force  # noqa: F401
import clearance  # noqa: F401
import gear  # noqa: F401
import nailing  # noqa: F401
import protection_systems  # noqa: F401
import roof  # noqa: F401
import ropes_and_crew  # noqa: F401
import rules  # noqa: F401
import slack_and_free_fall  # noqa: F401
import swing  # noqa: F401
