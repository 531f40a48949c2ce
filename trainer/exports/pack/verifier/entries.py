"""The ledger of a pack: every entry hashed again, every chain followed to the head that the checkpoint knows."""

from collections.abc import Iterator, Mapping
from typing import Any

from trainer.exports.pack.verifier.canonical import canonical, digest_of
from trainer.exports.pack.verifier.check import Check
from trainer.exports.pack.verifier.shape import CHAIN_PROOFS, CHECKPOINTS, GROWTH, OTHER_PROOFS, OTHERS, ledger_file
from trainer.exports.pack.verifier.trees import consistent, included, leaf

START = "0" * 64  # stands before the first entry of a chain and before the first checkpoint

Data = dict[str, Any]


def check_checkpoints(check: Check) -> list[Data]:
    """Check the chain of the checkpoints and return them; each follows on the one before it."""
    found: list[Data] = []
    for where, point in check.lines(CHECKPOINTS):
        name = f"Checkpoint C-{point['number']}"
        before: Data = found[-1] if found else {"number": 0, "digest": START, "entries": 0}
        if digest_of(point) != point["digest"]:
            check.fault(where, f"{name} was changed after it was written.")
        elif point["number"] != before["number"] + 1:
            check.fault(where, f"{name} does not belong here: a line was removed, put in or moved.")
        elif point["previous"] != before["digest"] or point["entries"] < before["entries"]:
            check.fault(where, f"{name} does not follow on the one before it.")
        found.append(point)
        check.counts["checkpoints"] += 1
    return found


def check_growth(check: Check, points: list[Data]) -> None:
    """Check that every earlier checkpoint was taken of a start of what the last one was taken of."""
    last = points[-1]
    known = {point["number"]: point for point in points}
    proofs = read_proofs(check, GROWTH, "checkpoint")
    for number, proof in proofs.items():
        earlier = known[number]
        path = _steps(proof)
        roots = bytes.fromhex(earlier["entries_root"]), bytes.fromhex(last["entries_root"])
        if not consistent(earlier["entries"], last["entries"], path, *roots):
            check.fault(GROWTH, f"the proof that the ledger only grew since checkpoint C-{number} is not right.")
    for number in sorted(known.keys() - proofs.keys() - {last["number"]}):
        check.fault(GROWTH, f"the proof for checkpoint C-{number} was removed.")


def check_chain(check: Check, key: str, who: str, proof: Data | None, point: Data) -> Iterator[Data]:
    """Check the entries of a person one after another, then that they end as the checkpoint says."""
    name, seq, number = ledger_file(key), 0, 0
    before, carried = {START}, START
    for where, entry in check.lines(name):
        entered = f"L-{entry['number']}"
        wanted = digest_of(entry)
        if wanted != entry["digest"]:
            check.fault(where, f"{entered} was changed after it was recorded.")
        if entry["person"] != key or entry["seq"] != seq + 1 or entry["number"] <= number:
            told = f"{entered}, entry {entry['seq']} of its chain, stands where entry {seq + 1} of {who} belongs"
            check.fault(where, f"{told}: a line was removed, put in or moved.")
        elif entry["previous"] not in before:
            check.fault(where, f"{entered} does not follow on the entry before it.")
        seq, number = entry["seq"], entry["number"]
        before, carried = {entry["digest"], wanted}, entry["digest"]
        check.counts["entries"] += 1
        yield entry
    if proof is None:
        check.fault(CHAIN_PROOFS, f"the proof for {who} was removed.")
    elif (proof["seq"], proof["digest"]) != (seq, carried):
        told = f"The entries of {who} end with entry {seq}, but the checkpoint knows {proof['seq']}"
        check.fault(name, f"{told}: the last ones were removed, changed or put in.")
    elif not _in_heads(proof, key, point):
        check.fault(CHAIN_PROOFS, f"the proof for {who} does not lead to checkpoint C-{point['number']}.")


def read_proofs(check: Check, name: str, key: str) -> dict[Any, Data]:
    """Return the proofs of a file, by what they prove; one that stands twice is named."""
    found: dict[Any, Data] = {}
    for where, proof in check.lines(name):
        if found and proof[key] <= max(found):
            check.fault(where, "was put in or moved: it does not belong here.")
        found[proof[key]] = proof
    return found


def check_others(check: Check, point: Data) -> Iterator[Data]:
    """Check the single entries about other people, each against the tree of all entries."""
    known = read_proofs(check, OTHER_PROOFS, "number")
    last = 0
    for where, entry in check.lines(OTHERS):
        entered = f"L-{entry['number']}"
        if entry["number"] <= last:
            check.fault(where, f"{entered} was put in or moved: it does not belong here.")
        last = entry["number"]
        proof = known.pop(entry["number"], None)
        if digest_of(entry) != entry["digest"]:
            check.fault(where, f"{entered} was changed after it was recorded.")
        elif proof is None:
            check.fault(where, f"{entered} has no proof: it was put in, or its proof was removed.")
        elif not _in_entries(proof, entry, point):
            check.fault(where, f"the proof of {entered} does not lead to checkpoint C-{point['number']}.")
        check.counts["entries"] += 1
        yield entry
    for number in known:
        check.fault(OTHERS, f"L-{number} was removed; its proof is still there.")


def _in_heads(proof: Mapping[str, Any], key: str, point: Mapping[str, Any]) -> bool:
    head = canonical({"chain": key, "digest": proof["digest"], "seq": proof["seq"]})
    return proof["size"] == point["chains"] and _leads(proof, head, point["heads_root"])


def _in_entries(proof: Mapping[str, Any], entry: Mapping[str, Any], point: Mapping[str, Any]) -> bool:
    place = (proof["index"], proof["size"])
    fits = place == (entry["number"] - 1, point["entries"])
    return fits and _leads(proof, entry["digest"], point["entries_root"])


def _leads(proof: Mapping[str, Any], data: str, root: str) -> bool:
    return included(leaf(data.encode()), proof["index"], proof["size"], _steps(proof), bytes.fromhex(root))


def _steps(proof: Mapping[str, Any]) -> list[bytes]:
    """Return the hashes of a path; ValueError for one that is not written as the program writes it."""
    steps = [bytes.fromhex(step) for step in proof["path"]]
    if [step.hex() for step in steps] != proof["path"]:
        raise ValueError("not in small letters")
    return steps
