"""Every source that a figure or a note leans on: the document as it is cited, and in words what it says.

Titles of documents are not translated. What a source says is; common practice has no document.
"""

from typing import Final

from attrs import frozen

from foamwright.reader import NP_, Message, N_


@frozen
class Source:
    """One source: what kind of evidence it is, the document if there is one, and what it says."""

    kind: str
    document: str
    says: Message


BASES: Final[dict[str, Message]] = {
    "published": N_("Published"),
    "derived": N_("Worked out; it needs no source"),
    "common_practice": N_("Common practice, no source"),
    "memory": N_("From memory; not checked against the document"),
    "typed": N_("Typed by you"),
}

SOURCES: Final[dict[str, Source]] = {
    "arithmetic": Source(
        "derived",
        "",
        N_("Geometry, unit conversion and sums; checked against independent libraries in the tests."),
    ),
    "absolute_volume": Source(
        "derived",
        "",
        N_(
            "Cement grains, water and foam fill the batch between them; checked against ASTM C869 Table 1 and "
            "hand-worked mixes."
        ),
    ),
    "practice_foam_window": Source(
        "common_practice",
        "",
        NP_(
            "weight", "Foam of 90 to 100 g/L for blocks of small shells; published windows are lighter and disagree with "
            "each other."
        ),
    ),
    "typed": Source(
        "typed",
        "",
        N_("Stated by whoever made the project."),
    ),
    "derived_no_structure": Source(
        "derived",
        "",
        N_(
            "Openings, skins, wind, snow, earthquake, footing and ground are not looked at; a licensed engineer and the local "
            "department decide."
        ),
    ),
    "astm_c869": Source(
        "published",
        "ASTM C869-91 (R1999), Specification for foaming agents used in making preformed foam for cellular concrete",
        NP_(
            "volume of foamed concrete that a batch makes",
            "Table 1 and footnote A: oven-dry density is cement and a fifth of it in water over the yield."),
    ),
    "aci_523_3r_14": Source(
        "published",
        "ACI 523.3R-14, Guide for cellular concretes above 50 lb/ft3",
        N_("Abstract: usual densities 320 to 1920 kg/m3 (20 to 120 lb/ft3)."),
    ),
    "astm_c796_foam_window": Source(
        "memory",
        "ASTM C796, Test method for foaming agents",
        N_("Foam of 32 to 64 kg/m3 is commonly attributed to it; stated from memory, the text was not read."),
    ),
    "practice_foam_density": Source(
        "common_practice",
        "",
        N_("Foam of 20 to 120 kg/m3."),
    ),
    "practice_water_cement": Source(
        "common_practice",
        "",
        N_("Slurry water over cement of 0.35 to 0.80 by mass."),
    ),
    "practice_cement_density": Source(
        "common_practice",
        "",
        NP_("weight", "Density of portland cement grains 3150 kg/m3; blended cements are lighter."),
    ),
    "practice_cement_suitability": Source(
        "common_practice",
        "",
        N_(
            "Designations are those of EN 197-1, ASTM C150, C595 and C91; which of them serve for foamed concrete "
            "is common practice."
        ),
    ),
    "practice_opening_near_crown": Source(
        "common_practice",
        "",
        N_("An opening that reaches where the dome has halved its radius leaves little shell above it."),
    ),
    "practice_full_drum": Source(
        "common_practice",
        "",
        NP_(
            "raising by hand", "A full drum is poured in place, tipped, let out below or emptied in buckets of at most 15 L; it is "
            "never lifted by hand."
        ),
    ),
    "practice_base_and_skins": Source(
        "common_practice",
        "",
        N_(
            "Base and skins take 0.7 to 1.0 times the cement of the shell again; a rough allowance until they are "
            "estimated."
        ),
    ),
    "practice_base": Source(
        "common_practice",
        "",
        N_("Depths, widths, laps and waste of a base are typed; the defaults are common practice and no design."),
    ),
    "practice_mortar": Source(
        "common_practice",
        "",
        N_(
            "By absolute volumes: loose cement 1440 kg/m3, grains of sand and gravel 2650 kg/m3, of lime 2300 kg/m3. Handbooks count "
            "by a dry volume of 1.27 to 1.33 times the wet one (from memory) and so come to other figures: the range shows both."
        ),
    ),
    "practice_concrete": Source(
        "common_practice",
        "",
        N_(
            "By absolute volumes: loose cement 1440 kg/m3, grains of sand and gravel 2650 kg/m3. Handbooks count by a dry volume of 1.52 to "
            "1.57 times the wet one (from memory)."
        ),
    ),
    "practice_mesh": Source(
        "common_practice",
        "",
        NP_(
            "reinforcement",
            "Strips are laid on the face along its meridian with the stated overlap; every strip is cut in one piece, longest first; mesh "
            "is cut out at openings after it is laid.",
        ),
    ),
    "steel_density": Source(
        "memory",
        "EN 10080, Steel for the reinforcement of concrete",
        N_("Mass of bars from their round section at 7850 kg/m3; stated from memory."),
    ),
    "astm_c926_lath": Source(
        "published",
        "ASTM C926, Specification for application of portland cement-based plaster",
        NP_("plaster", "Three coats on lath: 3/8 + 3/8 + 1/8 in, 7/8 in together (as trade pages quote it)."),
    ),
    "astm_c926_solid": Source(
        "published",
        "ASTM C926, Specification for application of portland cement-based plaster",
        NP_(
            "plaster",
            "Three coats on a solid base 5/8 in together; two coats on masonry 1/2 in, on cast concrete 3/8 in (as trade pages quote it). How "
            "the coats share it is from memory.",
        ),
    ),
    "astm_c946": Source(
        "memory",
        "ASTM C946, Practice for construction of dry-stacked, surface-bonded walls",
        N_("Surface bonding mortar with fibres at least 1/8 in thick on each face; stated from memory, the text was not read."),
    ),
    "stucco_handbook": Source(
        "published",
        "An older handbook of plastering, as a public page on stucco quotes it",
        NP_("plaster", "On metal lath: scratch coat 1/2 in, brown coat 3/8 in, finish coat 3/8 in."),
    ),
    "ead_040083": Source(
        "memory",
        "EAD 040083 and ETAG 004, External thermal insulation composite systems with rendering",
        NP_("reinforcement", "Glass-fibre mesh keeps after ageing at least half of its strength and at least 20 N/mm; stated from memory."),
    ),
    "practice_sawing": Source(
        "common_practice",
        "",
        N_("Foamed concrete is sawn by hand to about a millimetre. Pieces of a tenth of a block and less are thrown away."),
    ),
    "practice_waste": Source(
        "common_practice",
        "",
        N_(
            "Default waste: 3 percent lost batches, 3 percent breakage, 3 percent cutting and one batch to calibrate; fractions of "
            "the volume in place, added."
        ),
    ),
    "practice_timing": Source(
        "common_practice",
        "",
        N_("Default minutes for slurry, folding and pouring."),
    ),
    "practice_freeboard": Source(
        "common_practice",
        "",
        N_("Default freeboard of one twentieth of the drum, so that the usual 159 L pass in a 170 L drum."),
    ),
    "thrust_line": Source(
        "memory",
        "J. Heyman, On shell solutions for masonry domes, International Journal of Solids and Structures 3 (1967); The Stone Skeleton (1995)",
        N_(
            "What has no tension stands if one line of thrust fits within its thickness. The line is searched for in the shape as it is, a dome "
            "cut into slices that may push on their neighbours, a vault into strips. The search gives 0.1075 for the semicircular arch, as Milankovitch does, and 0.043 "
            "for the hemisphere, where Heyman rounds to 0.042 (both from memory)."
        ),
    ),
    "thrust_line_none": Source(
        "derived",
        "",
        N_("The same search, up to a thickness of half the inside diameter."),
    ),
    "thrust_stem": Source(
        "common_practice",
        "",
        N_(
            "Own weight must hold what overturns or slides a stem one and a half times over; friction of a mortar bed 0.4, as EN 1996-1-1, 3.6.2 "
            "gives it (from memory)."
        ),
    ),
    "thrust_line_taper": Source(
        "derived",
        "",
        N_("The same search, foot and crown thickened in the same proportion."),
    ),
    "thrust_base_weight": Source(
        "common_practice",
        "",
        N_(
            "Own weight must hold what overturns or slides a base one and a half times over; concrete of 2300 kg/m3, friction of 0.4 on the ground. "
            "Earth beside the base is not counted."
        ),
    ),
    "thrust_base": Source(
        "derived",
        "",
        N_("Equilibrium of the shell above its springing: what leans outward there must be held there."),
    ),
    "wall_wind": Source(
        "memory",
        "EN 1991-1-4:2005, Table 7.9, and BS 6399-2:1997, clause 2.1",
        N_(
            "Moments about the foot of a loose wall: its weight against a net pressure of 2.3 times that of the gust at a free end and 1.2 times "
            "far from it, and a gust of v pressing with 0.613 v2 pascals; stated from memory. A day's height of at most 1.2 m is common practice, no source."
        ),
    ),
    "practice_fill": Source(
        "common_practice",
        "",
        N_("Fills thinner than 20 mm crumble at their edge; falls of 1 in 50 drain a roof."),
    ),
    "practice_hood": Source(
        "common_practice",
        "",
        N_("A hood without bars stands out no further than it is thick; it is cast in a form and keyed into the shell."),
    ),
    "cement_heat": Source(
        "memory",
        "H. Woods, H. H. Steinour and H. R. Starke, Industrial and Engineering Chemistry 24 (1932); ASTM C150-07, Table 4",
        N_(
            "13 portland cements gave 72.5 to 115.9 cal/g (303 to 485 kJ/kg) in 180 days; moderate heat is at most 290 kJ/kg in 7 days. Both as public "
            "copies have them; blended cements 200 to 461 kJ/kg from memory. Dry foamed concrete 0.80 to 1.03 kJ/(kg K) (Journal of Civil Engineering and "
            "Management, 1996), its water 4.18."
        ),
    ),
    "pour_limit": Source(
        "published",
        "ACI 301-20, Specifications for concrete construction (as the ACI answers it in public)",
        N_("Mass concrete stays below 70 degrees C (160 F) after placing, against delayed ettringite; its centre at most 19 K (35 F) warmer than its face."),
    ),
    "practice_lift": Source(
        "common_practice",
        "",
        NP_(
            "concrete",
            "Lifts of 30 to 60 cm, the next one after 12 to 24 hours, once the lift below carries a person; older guides stop at 2 ft because some foams come "
            "apart in the heat.",
        ),
    ),
    "practice_neck": Source(
        "common_practice",
        "",
        N_("A neck of more than 2 m between two parts is built as a vault."),
    ),
    "joined": Source(
        "derived",
        "",
        N_(
            "At each height bodies, rooms and passages are circles and straight-sided plans, whose unions have closed forms; the height is summed by "
            "Gauss-Legendre rules. It keeps within 0.3 percent of what a joint takes out; checked against solid modelling."
        ),
    ),
    "practice_frame": Source(
        "common_practice",
        "",
        N_("Posts at every corner and 3 m apart at most, a ring beam at the top; sizes are typed and no design."),
    ),
    "membrane": Source(
        "derived",
        "",
        N_(
            "Equilibrium of a thin shell, upright and level, from the crown down; checked against the closed forms of spherical domes."
        ),
    ),
    "practice_slide": Source(
        "common_practice",
        "",
        N_(
            "Fresh blocks may slide from beds that lean 20 degrees, and must be counted on to slide from 30 degrees, until their ring closes; wet mortar "
            "that clings holds more, a soft one less."
        ),
    ),
    "practice_centring": Source(
        "common_practice",
        "",
        N_("Arches over openings are built on centring as long as their curve; level heads take a lintel."),
    ),
    "niosh_94_110": Source(
        "published",
        "NIOSH publication 94-110 (Rev. 9/2021), Applications manual for the revised lifting equation",
        N_("Page 7: load constant 23 kg (51 lb), the most that is recommended in the best posture."),
    ),
    "hse_indg143": Source(
        "memory",
        "HSE INDG143, Manual handling at work",
        N_(
            "Guideline filter at waist height close to the body 25 kg for men, 16 kg for women; from memory. HSE "
            "recommends no weight limits: the figures call for a fuller assessment."
        ),
    ),
}
