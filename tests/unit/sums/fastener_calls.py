"""One call of every fastener sum, and more where a sum has several ways."""

_JOINT = {"bolt_stiffness": "150 kN/mm", "member_stiffness": "500 kN/mm"}
_FRICTION = {"thread_friction": "0.12", "head_friction": "0.12"}

CALLS = [
    ("thread-geometry", {"thread": "M10x1.25"}),
    ("thread-geometry", {"thread": "7/16-14"}),
    ("bolt-strength", {"thread": "M12", "class": "10.9"}),
    ("bolt-strength", {"thread": "1/2-13", "class": "sae-8"}),
    ("assembly-tension", {"thread": "M10", "class": "8.8", **_FRICTION}),
    (
        "assembly-tension",
        {"thread": "M11x1.25", "yield_stress": "940 MPa", "utilisation": "80 %", **_FRICTION},
    ),
    ("bolt-tension", {"thread": "M10x1.25", "torque": "65 N·m", "class": "10.9", **_FRICTION}),
    ("bolt-tension", {"thread": "7/16-14", "torque": "55 lb-ft", "friction_band": "oil", **_FRICTION}),
    ("bolt-torque", {"thread": "M10", "tension": "30 kN", **_FRICTION}),
    (
        "bolt-torque",
        {"thread": "M10", "tension": "30 kN", "class": "8.8", "friction_band": "0.1, 0.14", **_FRICTION},
    ),
    ("nut-factor-tension", {"diameter": "0.375 in", "torque": "45 lb-ft", "nut_factor": "0.15"}),
    ("nut-factor-torque", {"diameter": "12 mm", "tension": "40 kN", "nut_factor": "0.2"}),
    (
        "same-tension-torque",
        {"thread": "1/2-13", "torque": "90 lb-ft", "from_lubricant": "dry", "to_lubricant": "moly"},
    ),
    ("proof-torque", {"thread": "3/8-16", "class": "sae-5", "nut_factor": "0.2"}),
    ("bolt-stiffness", {"sections": "13 mm/30 mm, 10.1 mm/60 mm", "modulus": "205 GPa"}),
    (
        "bolt-stiffness",
        {"thread": "M12", "shank_length": "30 mm", "thread_length": "15 mm", "modulus": "207 GPa"},
    ),
    (
        "member-stiffness",
        {"frusta": "30 Mpsi/0.75 in/0.5 in, 16 Mpsi/1.1 in/0.4 in", "bolt_diameter": "0.5 in"},
    ),
    ("joint-diagram", {**_JOINT, "preload": "40 kN", "external_load": "12 kN", "proof_load": "60 kN"}),
    ("joint-diagram", {**_JOINT, "preload": "4 kN", "external_load": "12 kN"}),
    ("angle-tension", {"thread": "M10x1.25", "angle": "90 deg", "snug_tension": "15 kN", **_JOINT}),
    ("angle-tension", {"thread": "M10x1.25", "angle": "180 deg", "class": "10.9", **_JOINT}),
    ("embedding-loss", {"Rz": "6.3 µm", "interfaces": "2", **_JOINT}),
    ("embedding-loss", {"settlement": "10 µm", **_JOINT}),
    (
        "thermal-tension",
        {"grip": "aluminium/90 mm, grey-iron/12 mm", "bolt_material": "steel", "rise": "80 K", **_JOINT},
    ),
    ("thermal-tension", {"grip": "aluminium/90 mm", "bolt_material": "steel", "rises": "80, 60 K", **_JOINT}),
    ("thread-strip", {"thread": "M10", "engagement": "15 mm", "hole_shear_strength": "180 MPa"}),
    (
        "thread-strip",
        {
            "thread": "7/16-14",
            "engagement": "0.6 in",
            "bolt_shear_strength": "90 ksi",
            "hole_shear_strength": "30 ksi",
        },
    ),
    ("torque-scatter", {"method": "torque-wrench"}),
    ("bearing-pressure", {"tension": "40 kN", "outer_diameter": "20 mm", "hole_diameter": "11 mm"}),
    (
        "bearing-pressure",
        {"tension": "40 kN", "outer_diameter": "20 mm", "hole_diameter": "11 mm", "material": "grey-iron"},
    ),
    (
        "trapped-liquid",
        {"thread": "M12", "tension": "40 kN", "boss_diameter": "26 mm", "material": "aluminium"},
    ),
    (
        "trapped-liquid",
        {"thread": "1/2-13", "tension": "9000 lbf", "boss_diameter": "1.1 in", "material": "grey-iron"},
    ),
    ("trapped-liquid", {"thread": "M12", "tension": "40 kN"}),
    ("head-marks", {"thread": "3/8-16", "marks": "three lines"}),
    ("head-marks", {"thread": "M10", "marks": "10.9"}),
    ("break-away-tension", {"thread": "M10", "torque": "50 N·m", "lubricant": "oil"}),
    (
        "break-away-tension",
        {"thread": "1/2-13", "torque": "60 lb-ft", "lubricant": "dry", "way": "tightening"},
    ),
]
