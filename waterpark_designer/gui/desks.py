"""What stands in the window while a project is open; loaded after the window is painted, or with the project."""

from waterpark_designer.gui.checks_dialog import ChecksDialog
from waterpark_designer.gui.lay_out_desk import LayOutDesk
from waterpark_designer.gui.review_desk import ReviewDesk
from waterpark_designer.gui.schedule_desk import ScheduleDesk
from waterpark_designer.gui.totals_band import TotalsBand

__all__ = ["ChecksDialog", "LayOutDesk", "ReviewDesk", "ScheduleDesk", "TotalsBand"]
