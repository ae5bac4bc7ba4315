"""Cautions: what can hurt someone at the plant, what is usually done about it, and where that is written."""

from waterpark_designer.documents.blocks import Caution
from waterpark_designer.sources import Provenance, Source

MEMORY, READ, COMMON = Provenance.MEMORY, Provenance.READ, Provenance.COMMON_PRACTICE
SECONDARY = Provenance.SECONDARY

DEFERS = (
    "These cautions are reminders for designers and start-up crews. They are not complete and replace nothing: local "
    "code, the suppliers' instructions and safety data sheets, and the judgement of licensed practitioners come "
    "first."
)

SHORT_CAUTION = Caution(
    "Before anything is ordered or built",
    "Sizes follow from the figures and the code basis named on this page. Duties, materials, electrical work, "
    "suction outlets, chemical rooms and ventilation are to be confirmed with the suppliers' data, local code and a "
    "licensed engineer. The cautions document belongs to this schedule.",
    Source("Common practice", COMMON),
)

CHLORINE_AND_ACID = (
    Caution(
        "Chlorine feed and acid must never meet",
        "Keep hypochlorite and acid apart: separate tanks, containments, fill points and feed lines, each labelled. "
        "Feeders that run while the circulation pump is off load the line with both; chlorine gas leaves the inlets "
        "when the pump starts again. Interlock both feeds with pump and proven flow, test the interlocks regularly, "
        "and clear the water of bathers before a restart.",
        Source("CDC, MMWR 66(19), 2017 (one event in California: 34 of about 50 bathers ill)", READ),
    ),
    Caution(
        "Feed stops when flow stops",
        "A flow sensor stops the feed when there is no return flow, besides the interlock with the circulation pump. "
        "Challenge the interlock every month, by loss of pump power and by loss of flow, and log it.",
        Source("Wisconsin SPS 390.17(2) (2017) and ATCP 76.13(1)(c) (2023)", READ),
    ),
    Caution(
        "Adding chemicals",
        "Never mix products. Add chemical to water, never water to chemical. Add at the poolside only as the label "
        "says and with nobody in the water.",
        Source("Maryland Department of Health, safety page for pool operators", READ),
    ),
)
STORAGE = (
    Caution(
        "Hypochlorite and other pool chemicals in store",
        "Pool chemicals become hazardous when a little water wets them or when they mix with other chemicals. Keep "
        "them dry, apart from each other and ventilated.",
        Source("US EPA, Chemical Safety Alert EPA 550-F-01-003 (March 2001)", READ),
    ),
    Caution(
        "Containers",
        "Original, labelled containers, away from flammables and heat, in a clean, dry and ventilated place where "
        "nothing can mix by accident.",
        Source("Michigan R 325.2191(5)", READ),
    ),
    Caution(
        "Solution tanks",
        "Feed suction at least 6 in (150 mm) above any sludge, a labelled tank, a cover with a screened vent, and no "
        "way to siphon.",
        Source("Wisconsin ATCP 76.11(6)(c)5", READ),
    ),
    Caution(
        "Spills",
        "Bulk tanks stand in a containment that holds the largest of them; its size is set by local code. "
        "Hypochlorite gives off oxygen and loses strength in heat and light: vent the tank and the dead ends of its "
        "lines.",
        Source("Common practice; containment volumes were not found in a code and are to be confirmed", COMMON),
    ),
)
HYDROGEN = (
    Caution(
        "Hydrogen from chlorine generators",
        "Every generator, in the return or brine-fed, releases hydrogen with its chlorine. It burns in air from "
        "about 4 to 74 % by volume. Prove flow before a cell is energised and cut the cell at once when flow is "
        "lost.",
        Source("Flammable range 4.1 to 74.2 %: industrial gas property text", READ),
    ),
    Caution(
        "Vent hydrogen outdoors",
        "Lead the gas from cells and product tanks upward to a safe point outdoors, without traps or dead pockets, "
        "away from air intakes and sparks. Prove the fan's flow before the cell starts.",
        Source("CDC Model Aquatic Health Code 4.7.3.2 and makers' listings (UL 1081)", MEMORY),
    ),
    Caution(
        "Dilution air stated here is a least",
        "It keeps hydrogen at a quarter of its lower flammable limit: 99 parts of air to one of hydrogen, before any "
        "safety factor. A fan of twice that or more is usual.",
        Source("Arithmetic on the flammable limit; the factor is common practice", COMMON),
    ),
)
ELECTRICITY = (
    Caution(
        "Electricity near water",
        "Bond metal parts, reinforcement, deck, pump motors and the water itself; protect circuits against ground "
        "faults; keep rectifiers and panels out of splash and chemical vapour. Designed and inspected by licensed "
        "electricians only.",
        Source("NFPA 70 (NEC), article 680, and 680.26 for bonding", MEMORY),
    ),
    Caution(
        "Before work on pumps, cells and lamps",
        "Lock out and tag every source of power and pressure. Generator cells run at high direct current; "
        "ultraviolet light harms eyes and skin while the chamber is open.",
        Source("OSHA 29 CFR 1910.147 for lock-out; suppliers' instructions", MEMORY),
    ),
)
PUMPS = (
    Caution(
        "Lock out before work on a pump or its motor",
        "Switch off, lock and tag the supply, close and tag the valves on both sides, and let the pressure off before "
        "a strainer lid, a coupling or a guard is opened. Timers, level controls and interlocks start a pump without "
        "warning; a pump that stands by starts when the other fails. A variable-speed drive holds its charge after it "
        "is switched off: wait as long as its supplier says, and measure.",
        Source("OSHA 29 CFR 1910.147 for lock-out; suppliers' instructions", MEMORY),
    ),
    Caution(
        "Which current sizes what",
        "A motor current of the standard tables sizes conductors, switches and short-circuit protection; overload "
        "protection is set by the motor's nameplate. A current stated as an estimate sizes nothing until the nameplate "
        "or the supplier confirms it.",
        Source("NEC 430.6(A)(1) and (2) for the tables; the rest is common practice", COMMON),
    ),
    Caution(
        "Air and pressure",
        "Never run a pump against a closed valve, and never open a filter or strainer under pressure: trapped air "
        "throws lids. Vent filters before and after each start.",
        Source("Common practice", COMMON),
    ),
)
OUTLET_COVERS = (
    Caution(
        "Covers are rated for the flow with one outlet blocked",
        "Rate every cover and its sump for the flow stated while any one outlet is blocked, keep the outlets of a pump "
        "apart and joined by one open line, and let no single outlet be shut off from the others by a valve. Confirm "
        "spacing and cover by the standard for suction fittings and local code.",
        Source("Wisconsin SPS 390.14(13)(c) for the flow; the rest is common practice", COMMON),
    ),
    Caution(
        "A large cover alone does not make an outlet unblockable",
        "A drain counts as unblockable only where a blocking element of 18 in by 23 in (457 mm by 584 mm) cannot "
        "shadow its sump; the size of the cover no longer counts.",
        Source("Virginia Graeme Baker Act, s.1403(7); CPSC, 76 FR 62605 (2011)", SECONDARY),
    ),
)
FEATURE_WATER = (
    Caution(
        "Water that jets, falls or tips",
        "A jet at close range harms eyes and ears: keep pressure low and openings out of reach of faces, and feel "
        "every nozzle before children do. Water that tips or falls strikes those below: the height, volume and spread "
        "of a bucket are its supplier's, and so are a slide's flow and landing.",
        Source("Common practice; suppliers' instructions and local code come first", COMMON),
    ),
)
RIVER_JETS = (
    Caution(
        "Suction at river jets",
        "The pumps that drive a current draw large flows from the water in which people float. Their intakes are "
        "suction outlets like any other: several, apart, covered and rated for the flow with one blocked, so guarded "
        "that hair, limbs and clothing are not drawn in. The pump stops when a cover is missing. Keep heads and faces "
        "clear of the jets themselves.",
        Source("16 CFR 1450 for covers (CPSC, 76 FR 47436, 2011); the rest is common practice", COMMON),
    ),
    Caution(
        "Grates in a river's floor and walls",
        "People stand, kneel and float over a river's grates. Reckon every grate as a suction outlet: slow water "
        "through it while any one is blocked, openings that hold no finger or toe, frames that cannot lift, and no "
        "edge or gap beside it. Check fixings before each opening, and stop the pump when one is loose.",
        Source("Common practice; openings and velocities by the standard for suction fittings and local code", COMMON),
    ),
)
SUCTION = (
    Caution(
        "Suction outlets can trap a bather",
        "Covers comply with the standard that the law names (ANSI/APSP-16 2011 and what has followed it), suit the "
        "flow of their sump, are never missing, and the pump is off while one is.",
        Source("CPSC, 76 FR 47436 (2011), 16 CFR 1450", READ),
    ),
    Caution(
        "No single blockable outlet",
        "A public pool with one blockable main drain needs a second device, such as a vacuum release, a "
        "suction-limiting vent, gravity drainage or automatic shut-off.",
        Source("Virginia Graeme Baker Act, P.L. 110-140, s.1404(c)(1)(A)(ii)", READ),
    ),
    Caution(
        "Any one outlet blocked",
        "Main drains carry the full flow, and still carry it with any one of them blocked. Feature pumps that draw "
        "from the basin need the same care as the recirculation pump.",
        Source("Wisconsin SPS 390.14(13)(c)", READ),
    ),
    *OUTLET_COVERS,
)
CONFINED = (
    Caution(
        "Tanks, sumps and filters are confined spaces",
        "Surge and holding tanks, brine and product tanks and filter vessels may lack oxygen or hold chlorine or "
        "hydrogen. Nobody enters before isolation, ventilation, a gas test, a permit and an attendant with rescue at "
        "hand.",
        Source("OSHA 29 CFR 1910.146 or the local equal", MEMORY),
    ),
)
SALT_CAUTIONS = (
    Caution(
        "Bags are heavy",
        "Under good conditions about 50 lb (23 kg) is the most that one person should lift, and many bags tire sooner "
        "than one. Bring pallets to the water's edge, use lifting aids, and lift heavier bags with two people.",
        Source("NIOSH lifting equation, load constant of 51 lb (23 kg)", MEMORY),
    ),
    Caution(
        "Adding salt",
        "Generators off, pump running. Spread salt over deep water a part at a time, keep it off steps, liners and "
        "metal, brush until it is dissolved, and measure before the last tenth is added: volumes on drawings err, "
        "and salt comes out only with water.",
        Source("Common practice", COMMON),
    ),
    Caution(
        "Salt water leaves with its salt",
        "Salt attacks metal, stone and plants. Where backwash, drain and exchange water may go is a matter for the "
        "local authority.",
        Source("Common practice", COMMON),
    ),
)
