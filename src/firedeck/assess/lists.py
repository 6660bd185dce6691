"""Every finding and every answer, in order. A finding may ask only for those above it."""

from firedeck.answers import (
    bolts_or_studs,
    buy_what,
    casting_worth,
    clean_how,
    cut_does_what,
    cut_how_much,
    damage_near_seal,
    dry_or_coated,
    face_flat,
    fasteners_reuse,
    finish_right,
    gasket_fits,
    gasket_which,
    goes_on,
    liners_stand,
    old_gasket_says,
    pistons_stand,
    shop_order,
    strip_how,
    threads_hold,
    tighten_how,
    work_accepted,
)
from firedeck.answers import combination as which_set
from firedeck.findings import combination as sets
from firedeck.findings import (
    cut,
    damage,
    effects,
    faces,
    fasteners,
    finish,
    fits,
    layout,
    liners,
    old_gasket,
    pistons,
    procedure,
    threads,
    volumes,
)
from firedeck.findings.finding import Listed

ENGINE_WIDE = True
PER_JOINT = False

FINDINGS = (
    Listed("faces", PER_JOINT, faces.find),
    Listed("finish", PER_JOINT, finish.find),
    Listed("damage", PER_JOINT, damage.find),
    Listed("old_gasket", PER_JOINT, old_gasket.find),
    Listed("liners", PER_JOINT, liners.find),
    Listed("pistons", PER_JOINT, pistons.find),
    Listed("layout", PER_JOINT, layout.find),
    Listed("fits", PER_JOINT, fits.find),
    Listed("volumes", PER_JOINT, volumes.find),
    Listed("cut", PER_JOINT, cut.find),
    Listed("effects", PER_JOINT, effects.find),
    Listed("combination", PER_JOINT, sets.find),
    Listed("threads", PER_JOINT, threads.find),
    Listed("fasteners", PER_JOINT, fasteners.find),
    Listed("procedure", PER_JOINT, procedure.find),
)

ANSWERS = {
    "casting-worth": casting_worth.answer,
    "shop-order": shop_order.answer,
    "work-accepted": work_accepted.answer,
    "cut-how-much": cut_how_much.answer,
    "damage-near-seal": damage_near_seal.answer,
    "face-flat": face_flat.answer,
    "finish-right": finish_right.answer,
    "fasteners-reuse": fasteners_reuse.answer,
    "threads-hold": threads_hold.answer,
    "strip-how": strip_how.answer,
    "clean-how": clean_how.answer,
    "dry-or-coated": dry_or_coated.answer,
    "liners-stand": liners_stand.answer,
    "pistons-stand": pistons_stand.answer,
    "cut-does-what": cut_does_what.answer,
    "old-gasket-says": old_gasket_says.answer,
    "combination": which_set.answer,
    "tighten-how": tighten_how.answer,
    "goes-on": goes_on.answer,
    "buy-what": buy_what.answer,
    "bolts-or-studs": bolts_or_studs.answer,
    "gasket-which": gasket_which.answer,
    "gasket-fits": gasket_fits.answer,
}
