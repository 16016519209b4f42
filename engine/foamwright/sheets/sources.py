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
    "caltrans_19_10": Source(
        "published",
        "Caltrans standard special provision 19-10, table of 19-10.01A",
        N_("Least strength at 28 days of each class, by its greatest cast density."),
    ),
    "astm_c869_table": Source(
        "published",
        "ASTM C869-91 (R1999), Table 1",
        N_("Least strength of the standard test batch, 641 kg/m3 as cast and 48 either way."),
    ),
    "concrete_society": Source(
        "published",
        "Concrete Society, note on foamed concrete",
        NP_("weight", "Strengths of 0.5 to 5 MPa over all densities from 400 to 1600 kg/m3; sand is usually left out below about 1000 kg/m3."),
    ),
    "bca_1994": Source(
        "memory",
        "British Cement Association 1994, as reviews reproduce it",
        N_("Strength, conductivity and drying shrinkage by oven-dry density."),
    ),
    "is_2185_4": Source(
        "memory",
        "IS 2185-4:2008, Table 1",
        N_("Strength and conductivity of blocks by oven-dry density."),
    ),
    "ashrae_2021_ch26": Source(
        "published",
        "ASHRAE Handbook Fundamentals (SI) 2021, chapter 26, Table 1 with note i, after Valore 1988",
        N_("Conductivity of foamed concrete with the moisture of use, by oven-dry density."),
    ),
    "dstu_9191": Source(
        "published",
        "DSTU 9191:2022, design conductivities, as transcribed",
        N_("Conductivity to design with, moisture of use counted, by oven-dry density."),
    ),
    "jcem_1996": Source(
        "published",
        "Investigation into non-autoclaved foam concrete heat engineering properties, Journal of Civil Engineering and Management, December 1996, abstract",
        N_("Conductivity to design with and specific heat, by oven-dry density."),
    ),
    "aci_122r_valore": Source(
        "memory",
        "ACI 122R-02, formula of Valore",
        N_("Conductivity of oven-dry concrete: 0.072 W/(m K) times e to the power of 0.00125 times the oven-dry density."),
    ),
    "ashrae_2021_kumaran": Source(
        "published",
        "ASHRAE Handbook Fundamentals (SI) 2021, chapter 26, Table 1, after Kumaran 1996",
        N_("Conductivity of dry aerated concrete, which is not foamed concrete."),
    ),
    "gost_25485": Source(
        "memory",
        "GOST 25485-89",
        N_("Conductivity of dry cellular concrete, by oven-dry density."),
    ),
    "cte_catalogue": Source(
        "published",
        "Materials catalogue of the Spanish building code (CTE), autoclaved aerated concrete",
        N_("Conductivity of autoclaved aerated concrete, which is not foamed concrete."),
    ),
    "aci_201_2r": Source(
        "memory",
        "ACI 201.2R, Guide to durable concrete",
        N_("Above 70 °C (158 °F) while it hardens, dense concrete may suffer from delayed ettringite."),
    ),
    "aci_209r": Source(
        "memory",
        "ACI 209R-92, Table 2.2.1",
        N_("Strength at so many days over that at 28: t / (4 + 0.85 t), for dense concrete."),
    ),
    "aci_305_1": Source(
        "memory",
        "ACI 305.1, Specification for hot weather concreting",
        N_("At most 35 °C (95 °F) at discharge, for dense concrete."),
    ),
    "aci_305r_evaporation": Source(
        "published",
        "ACI 305R, as quoted in ACI Materials Journal 95 (1998), no. 95-M34",
        N_("Precautions from an evaporation of 1.0 kg/(m2 h), for dense concrete."),
    ),
    "aci_306r_air": Source(
        "memory",
        "ACI 306R-16, Guide to cold weather concreting",
        N_("Cold weather: air at or below 4 °C (40 °F)."),
    ),
    "aci_306r_placed": Source(
        "memory",
        "ACI 306R, Table 3.1",
        N_("Concrete at least 13 °C (55 °F) as placed, in sections below 300 mm."),
    ),
    "aci_306r_water": Source(
        "memory",
        "ACI 306R, Guide to cold weather concreting",
        N_("Water above 60 °C (140 °F) may set cement at once where they meet."),
    ),
    "aci_heat_balance": Source(
        "memory",
        "ACI 305R and ACI 306R, heat balance of a fresh mix",
        N_("Each part gives its mass times its specific heat times its temperature; cement and sand hold 0.22 of the heat of water."),
    ),
    "astm_c1074_arrhenius": Source(
        "memory",
        "ASTM C1074, equivalent age",
        N_("Age at 20 °C by 41.5 kJ/mol, for dense concrete."),
    ),
    "astm_c1074_saul": Source(
        "memory",
        "ASTM C1074, temperature-time factor",
        N_("Hours times degrees above -10 or 0 °C, for dense concrete."),
    ),
    "en_1990_d7": Source(
        "memory",
        "EN 1990:2002, D7.2 and Table D1",
        N_("Characteristic value of a sample whose scatter is not known beforehand."),
    ),
    "en_1992_3_2": Source(
        "published",
        "EN 1992-1-1:2004, eq. 3.2",
        N_("Strength by age and class of cement, for dense concrete."),
    ),
    "en_1992_b10": Source(
        "published",
        "EN 1992-1-1:2004, eq. B.10",
        N_("Age adjusted for temperature, 0 to 80 °C, for dense concrete."),
    ),
    "en_1992_rapid": Source(
        "published",
        "EN 1992-1-1:2004, eq. 3.2, class R",
        N_("Strength by age of cement that hardens rapidly, for dense concrete."),
    ),
    "en_1992_normal": Source(
        "published",
        "EN 1992-1-1:2004, eq. 3.2, class N",
        N_("Strength by age of ordinary cement, for dense concrete."),
    ),
    "en_1992_slow": Source(
        "published",
        "EN 1992-1-1:2004, eq. 3.2, class S",
        N_("Strength by age of slow cement, for dense concrete."),
    ),
    "en_206_chloride": Source(
        "memory",
        "EN 206, chloride content",
        N_("Calcium chloride is not to be added to concrete with steel in it; local limits differ."),
    ),
    "iso_10456": Source(
        "memory",
        "ISO 10456:2007, Table 4",
        N_("Moisture of aerated concrete in use: 2.6 to 4.5 % by mass."),
    ),
    "jcgm_100": Source(
        "published",
        "JCGM 100:2008, Guide to the expression of uncertainty in measurement, 6.2",
        N_("Uncertainty with a coverage factor of 2."),
    ),
    "cadiergues": Source(
        "memory",
        "Drying of walls after Cadiergues, as handbooks of the 1950s quote him; not found again",
        N_("1.2 to 1.6 days by the square of the thickness in centimetres, for a wall that dries to both sides."),
    ),
    "derived_tables_neat": Source(
        "derived",
        "",
        N_("The tables state mixes of cement, water and foam; what else goes in was not in them."),
    ),
    "heats_of_hydration": Source(
        "memory",
        "Handbooks of cement chemistry; EN 197-1 for low heat",
        N_("Heat of the first week and the hours in which half of it comes, as ranges."),
    ),
    "menzel_1954": Source(
        "memory",
        "Menzel 1954, as ACI Materials Journal 95 (1998), no. 95-M34, gives it",
        N_("Evaporation by vapour pressures, for dense concrete that bleeds."),
    ),
    "uno_1998": Source(
        "published",
        "Uno, ACI Materials Journal 95 (1998), no. 95-M34",
        N_("Evaporation by temperatures, humidity and wind, for dense concrete that bleeds."),
    ),
    "usgs_hardness": Source(
        "published",
        "US Geological Survey, hardness of water",
        N_("Soft up to 60, moderately hard up to 120, hard up to 180 mg/L as CaCO3, very hard above."),
    ),
    "vermont_hardness": Source(
        "published",
        "Vermont Department of Health, hardness in drinking water",
        N_("Soft up to 75, moderately hard up to 150, hard up to 300 mg/L as CaCO3, very hard above."),
    ),
    "practice_correction": Source(
        "common_practice",
        "",
        N_("A correction of more than a quarter of the batch is a mix gone wrong."),
    ),
    "practice_falling": Source(
        "common_practice",
        "",
        N_("A batch whose height falls is losing its foam; nothing put in holds it."),
    ),
    "practice_foam_failed": Source(
        "common_practice",
        "",
        N_("Foam that is off its weight or does not stand collapses in the mix."),
    ),
    "practice_latest": Source(
        "common_practice",
        "",
        N_("A batch is put right within 20 minutes of foaming or not at all."),
    ),
    "practice_moisture_steps": Source(
        "common_practice",
        "",
        N_("Moisture by mass at which blocks are laid (20 to 35 %), skinned (10 to 15 %) and sealed (4 to 6 %)."),
    ),
    "practice_no_frost": Source(
        "common_practice",
        "",
        N_("Fresh foamed concrete must not freeze."),
    ),
    "practice_seven_days": Source(
        "common_practice",
        "",
        N_("About 80 % of its strength at seven days."),
    ),
    "practice_stages": Source(
        "common_practice",
        "",
        N_("Hours at 20 °C until it is demoulded, handled, built on and loaded."),
    ),
    "practice_hard_water": Source(
        "common_practice",
        "",
        N_("What to try with hard water; no published figure says which hardness foam bears."),
    ),
    "practice_trade_r": Source(
        "common_practice",
        "",
        N_("R 1.8 to 2.2 per inch for cast densities of 320 to 500 kg/m3."),
    ),
    "practice_chart": Source(
        "common_practice",
        "",
        N_("Below 20 readings the fixed window alone judges; tests for drift and for jumps stop the work, the others ask to look."),
    ),
    "practice_drain": Source(
        "common_practice",
        "",
        N_("Foam of which a quarter drains in five minutes does not last until the concrete sets."),
    ),
    "practice_cause": Source(
        "common_practice",
        "",
        N_("Which sign speaks for which cause, and how much; nobody measured it."),
    ),
    "memory_astm_c796": Source(
        "memory",
        "ASTM C796",
        N_("Foam of 32 to 64 g/L, commonly attributed to it."),
    ),
    "memory_british_practice": Source(
        "memory",
        "",
        N_("Foam of 20 to 90 g/L in British practice."),
    ),
    "tanaka_2001": Source(
        "memory",
        "Tanaka et al., Metrologia 38 (2001) 301",
        N_("The density of pure water from 0 to 40 °C."),
    ),
    "iso_7870_2": Source(
        "memory",
        "ISO 7870-2",
        N_("Limits of a chart of individuals and moving ranges."),
    ),
    "nelson_1984": Source(
        "memory",
        "Nelson, Journal of Quality Technology 16 (1984) 237",
        N_("Eight tests for patterns in a control chart."),
    ),
    "mc2010_temperature": Source(
        "memory",
        "fib Model Code 2010",
        N_("How the rate of hardening follows the temperature."),
    ),
}
