"""Facts about the part, the bend, the people and what surrounds the brake."""

from trainer.safeguarding.selection.facts.fact import choice, count, length
from trainer.wording import mark

JOB = (
    choice(
        "part_holding",
        mark("What keeps the part in place during the bend"),
        mark("Nobody has watched whether the part must be held. Watch one bend."),
        hand_held=mark("a hand"),
        supported=mark("supports, stops or magnets; no hand"),
    ),
    length(
        "hand_mm",
        mark("Smallest distance of a hand from the die line during the bend"),
        mark("Nobody has measured how near the hands come to the die. Measure it on one bend with the power off."),
    ),
    choice(
        "needs_reach_in",
        mark("Loading or taking out puts hands between the tools"),
        mark("Nobody has watched whether hands go between the tools. Watch the loading of one part."),
        no=mark("no"),
        yes=mark("yes"),
    ),
    choice(
        "bend_form",
        mark("Bend or tool"),
        mark("Nobody has said which kind of bend or tool it is. Look at the drawing and at the tools."),
        plain=mark("plain bend"),
        box_tray=mark("box or tray"),
        hem_flatten=mark("hemming or flattening"),
        large_radius=mark("large radius"),
        gooseneck=mark("gooseneck punch"),
        wide_deep_punch=mark("wide or deep punch"),
    ),
    choice(
        "flange_place",
        mark("Leg bent up before"),
        mark("Nobody has looked where legs stand up on the part. Look at the part as it lies in the tools."),
        none=mark("none"),
        front=mark("at the front"),
        side_ends=mark("at the tool ends"),
    ),
    length(
        "flange_mm",
        mark("Height of that leg"),
        mark("Nobody has measured the leg that stands up. Measure it."),
    ),
    count(
        "people",
        mark("People within reach of tools or part"),
        mark("Nobody has counted who can reach the tools or the moving part. Count them during one bend."),
    ),
    choice(
        "own_control",
        mark("Everybody holds a control, or wears a device, of his or her own"),
        mark("Nobody knows whether each person has an own control or device. Look, and try each one."),
        yes=mark("yes"),
        no=mark("no"),
    ),
    choice(
        "everyone_covered",
        mark("Everybody works behind the front field"),
        mark("Nobody has looked whether each person stands behind the field. Look from the side during one bend."),
        yes=mark("yes"),
        no=mark("no"),
    ),
    choice(
        "ends_closed",
        mark("Covers on at the two die ends"),
        mark("Nobody has looked at the die ends. Walk round and look at both."),
        yes=mark("yes"),
        no=mark("no"),
    ),
    choice(
        "rear_closed",
        mark("Rear guard on"),
        mark("Nobody has looked behind the brake. Walk round and look at the rear guard."),
        yes=mark("yes"),
        no=mark("no"),
    ),
    choice(
        "backstop",
        mark("Back-stop"),
        mark("Nobody knows how the back-stop moves and what guards it. Watch it move from outside the tools."),
        fixed=mark("moved by hand"),
        powered_guarded=mark("driven, and made safe"),
        powered_unguarded=mark("driven, and open"),
    ),
    choice(
        "job_kind",
        mark("Kind of job"),
        mark("Nobody has said whether the job is a one-off or repeat work. Look at the order."),
        one_off_custom=mark("a few custom pieces"),
        repeat=mark("series work"),
    ),
    count(
        "batch_qty",
        mark("Pieces"),
        mark("Nobody has said how many pieces it is. Look at the order."),
    ),
    choice(
        "other_feasible",
        mark("Guard or device possible for this job"),
        mark("Nobody has shown whether a guard or a device could work here. Try them and write the result down."),
        yes=mark("yes"),
        shown_not_feasible=mark("none works; the proof is in writing"),
    ),
    choice(
        "sd_program",
        mark("Safe-distance programme"),
        mark("Nobody knows whether there is a safe-distance programme. Ask for its papers."),
        complete=mark("complete, from the written method to the yearly inspection"),
        partial=mark("partly there"),
        none=mark("none"),
    ),
)
