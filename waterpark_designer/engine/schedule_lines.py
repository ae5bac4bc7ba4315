"""How the lines of one system's equipment schedule are written: tags in turn, amounts from figures, grounds."""

from collections.abc import Iterable

from waterpark_designer.engine.design_system import SizedSystem
from waterpark_designer.engine.schedule import Amount, ScheduleLine
from waterpark_designer.engine.sheet import Sheet
from waterpark_designer.engine.worked import Value, leaf
from waterpark_designer.sources import ARITHMETIC
from waterpark_designer.units import COUNT


class ScheduleLines:
    """Writes lines for one system; tags count up from one line to the next."""

    def __init__(self, sized: SizedSystem, number: int) -> None:
        self.sized, self.number = sized, number
        self.sheet, self.system = sized.sheet, sized.system
        self._next: dict[str, int] = {}

    def line(
        self,
        key: str,
        letter: str,
        item: str,
        quantity: Value,
        duty: tuple[Amount, ...],
        rating: tuple[Amount, ...],
        remarks: str,
        *figures: str,
        sheet: Sheet | None = None,
        runs: Iterable[Sheet] = (),
    ) -> ScheduleLine:
        """One line, sized by figures of its sheet and by the bores of pipe runs."""
        owner = sheet or self.sheet
        bores = tuple((run.node.id, "inside_diameter") for run in runs)
        return ScheduleLine(
            key=f"{owner.node.id}/{key}",
            system=self.system.id,
            item=item,
            quantity=quantity,
            duty=duty,
            rating=rating,
            tag=self._tag(letter),
            remarks=remarks,
            why=(*((owner.node.id, figure) for figure in figures if figure in owner.figures), *bores),
        )

    def amount(self, figure: str, after: str = "", sheet: Sheet | None = None) -> Amount:
        """A figure as an amount."""
        found = (sheet or self.sheet).figures[figure]
        return Amount(found.value, found.kind.measure, after)

    def present(self, figure: str, after: str = "", sheet: Sheet | None = None) -> tuple[Amount, ...]:
        """A figure as an amount, where the sheet has it."""
        return (self.amount(figure, after, sheet),) if figure in (sheet or self.sheet).figures else ()

    def _tag(self, letter: str) -> str:
        """System and item in one number, as P-101; with a dash where the item's number has three figures."""
        item = self._next[letter] = self._next.get(letter, 0) + 1
        return f"{letter}-{self.number}{item:02d}" if item < 100 else f"{letter}-{self.number}-{item}"


def counted(number: int) -> Value:
    """A number of pieces."""
    return leaf(number, "Number", ARITHMETIC, measure=COUNT)
