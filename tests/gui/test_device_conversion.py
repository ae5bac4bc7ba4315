"""One way to the flow of a device as another keeps what it can."""

from itertools import permutations

import pytest

from waterpark_designer.gui.device_conversion import converted
from waterpark_designer.model.devices import (
    DEVICES,
    BroadCrest,
    Bubbler,
    Nozzle,
    SlideLanes,
    SprayNozzle,
    SupplierFlow,
    TippingBucket,
    Weir,
)
from waterpark_designer.model.features import Feature
from waterpark_designer.units import FOOT, GALLON, INCH, MINUTE, PSI

GPM = GALLON / MINUTE


def of(device) -> Feature:
    return Feature(name="Play", device=device)


@pytest.mark.parametrize(("first", "second"), list(permutations(DEVICES, 2)))
def test_any_way_becomes_any_other(first, second) -> None:
    for each in (None, 0.0, 1e-9, 0.002, 20.0):
        assert type(converted(of(DEVICES[first]()), second, each)) is DEVICES[second]


def test_the_same_way_stays_as_it_is() -> None:
    nozzle = Nozzle(bore=0.01)
    assert converted(of(nozzle), "nozzle", None) is nozzle


def test_crests_keep_their_length_head_and_basin() -> None:
    weir = Weir(length=3.0, head=0.05, end_contractions=2, basin_area=8.0)
    assert converted(of(weir), "broad_crest", 0.1) == BroadCrest(length=3.0, head=0.05, basin_area=8.0)
    assert converted(of(weir), "nozzle", 0.1) == Nozzle(), "the head over a crest is no head of a nozzle"


def test_nozzles_keep_bore_and_head() -> None:
    nozzle = Nozzle(bore=0.375 * INCH, head=10 * FOOT, discharge_coefficient=0.95)
    assert converted(of(nozzle), "bubbler", None) == Bubbler(bore=0.375 * INCH, jet_height=10 * FOOT)
    # K 3.986 gpm/√psi (29.838 C d²); 10 ft are 4.33 psi in water of 62.4 lb/ft³.
    spray = converted(of(nozzle), "spray_coefficient", None)
    assert spray.spray_coefficient / (GPM / PSI**0.5) == pytest.approx(3.986, rel=3e-3)
    assert spray.pressure / PSI == pytest.approx(4.33, rel=5e-3)
    assert converted(of(spray), "nozzle", None).head == pytest.approx(10 * FOOT)


def test_a_height_that_no_bubbler_reaches_is_left_out() -> None:
    assert converted(of(Nozzle(bore=0.01, head=100.0)), "bubbler", None) == Bubbler(bore=0.01)


def test_slide_and_bucket_keep_the_flow() -> None:
    assert converted(of(SupplierFlow()), "slide", 0.06) == SlideLanes(flow_per_lane=0.06)
    bucket = converted(of(SupplierFlow()), "bucket", 60 * GPM)
    assert (bucket.bucket_volume, bucket.time_between_tips) == (pytest.approx(180 * GALLON), 180.0)
    assert converted(of(SprayNozzle()), "bucket", None) == TippingBucket()
