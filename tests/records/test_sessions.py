"""A session is worth something only until it ends, whatever a browser still holds."""

from trainer.records import people, sessions


def test_a_session_ends_in_the_record(record):
    with record.writing() as w:
        person = people.add(w, number="00101", name="Suharto", shift="Early", language="en").key
        tokens = [sessions.begin(w, person=person, door="office", place="address:1") for _ in range(3)]
    with record.writing() as w:
        sessions.end(w, tokens[0])
    with record.reading() as r:
        assert [sessions.is_open(r, token, person) for token in tokens] == [False, True, True]
        assert not sessions.is_open(r, tokens[1], "somebody-else")
        assert not sessions.is_open(r, "made-up", person)
    with record.writing() as w:
        sessions.end_all(w, person)
    with record.reading() as r:
        assert not any(sessions.is_open(r, token, person) for token in tokens)
