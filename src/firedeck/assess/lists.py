"""Every finding and every answer, in order. A finding may ask only for those above it."""

from firedeck.answers import face_flat, finish_right
from firedeck.findings import faces, fasteners, finish, layout, procedure, threads
from firedeck.findings.finding import Listed

ENGINE_WIDE = True
PER_JOINT = False

FINDINGS = (
    Listed("faces", PER_JOINT, faces.find),
    Listed("finish", PER_JOINT, finish.find),
    Listed("layout", PER_JOINT, layout.find),
    Listed("threads", PER_JOINT, threads.find),
    Listed("fasteners", PER_JOINT, fasteners.find),
    Listed("procedure", PER_JOINT, procedure.find),
)

ANSWERS = {
    "face-flat": face_flat.answer,
    "finish-right": finish_right.answer,
}
