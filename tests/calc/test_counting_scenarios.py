"""Cases of counting on the floor that random tests rarely reach."""

import ast
import inspect

import pytest

from kitting.calc import counting
from kitting.calc.counting import Tally, fold
from tests.calc.floor import Begun, Floor


@pytest.fixture
def floor() -> Floor:
    return Floor("bench", "shelf")


def count(floor: Floor, phone: str, total: int, damaged: int = 0, actor: str = "ines") -> str:
    return floor.act(phone, actor, "set", "pin", (total, damaged)).id


def find(floor: Floor, phone: str, total: int, damaged: int = 0) -> str:
    return floor.act(phone, "ines", "add", "pin", (total, damaged)).id


def undo(floor: Floor, phone: str, target: str, actor: str = "ines") -> str:
    return floor.act(phone, actor, "undo", "pin", target=target).id


def pulled(floor: Floor) -> Tally | None:
    """The tally that everyone has once everything is sent and pulled."""
    floor.settle()
    first, *others = (fold(phone.screen).get("pin") for phone in floor.phones.values())
    assert others == [first] * len(others)
    assert fold(floor.server.log).get("pin") == first
    return first


def test_two_counts_apart_that_differ_are_counted_again_with_both_numbers(floor):
    count(floor, "bench", 4)
    count(floor, "shelf", 6, 1)
    assert pulled(floor) == Tally(6, 1, 4, True)


def test_two_counts_apart_that_agree_are_certain(floor):
    count(floor, "bench", 4, 1)
    count(floor, "shelf", 4, 1)
    assert pulled(floor) == Tally(4, 1, 4, False)


def test_two_counts_apart_with_as_many_pieces_but_not_as_many_damaged_are_counted_again(floor):
    count(floor, "bench", 4, 1)
    count(floor, "shelf", 4, 2)
    assert pulled(floor) == Tally(4, 2, 4, True)


def test_a_piece_found_beside_a_count_nobody_had_seen_may_be_in_it_already(floor):
    count(floor, "bench", 4)
    find(floor, "shelf", 1)
    assert pulled(floor) == Tally(5, 0, 4, True)


def test_a_piece_found_by_someone_who_saw_only_one_of_two_agreeing_counts_may_be_in_the_other(floor):
    count(floor, "bench", 4)
    find(floor, "bench", 1)
    count(floor, "shelf", 4)
    assert pulled(floor) == Tally(5, 0, 4, True)


def test_the_same_piece_may_have_been_found_by_two_who_had_not_seen_each_other(floor):
    count(floor, "bench", 4)
    floor.settle()
    find(floor, "bench", 1)
    find(floor, "shelf", 1)
    assert pulled(floor) == Tally(6, 0, 6, True)


def test_a_count_after_both_finds_settles_them(floor):
    find(floor, "bench", 1)
    find(floor, "shelf", 1)
    floor.settle()
    count(floor, "bench", 2)
    assert pulled(floor) == Tally(2, 0, 2, False)


def test_less_than_nothing_is_shown_as_it_is_and_counted_again(floor):
    count(floor, "bench", 1)
    find(floor, "bench", -3)
    assert pulled(floor) == Tally(-2, 0, -2, True)


def test_more_damaged_than_there_are_is_counted_again(floor):
    count(floor, "bench", 1, 1)
    find(floor, "bench", 0, 1)
    assert pulled(floor) == Tally(1, 2, 1, True)


def test_what_was_on_the_screen_through_the_log_is_known_to_the_last_place_pulled(floor):
    for total in (1, 2, 3):
        count(floor, "bench", total)
    floor.send("bench")
    floor.pull("shelf", 2)
    count(floor, "shelf", 9)
    assert pulled(floor) == Tally(9, 0, 3, True)


def test_an_undo_that_arrives_before_its_target_takes_it_back_all_the_same(floor):
    """The log was restored to before the target; the phone with the undo sent first."""
    target = count(floor, "bench", 4)
    floor.settle()
    undo(floor, "shelf", target)
    floor.settle()
    floor.server.restore()
    floor.pull("shelf")
    floor.send("shelf")
    assert [event.kind for event in floor.server.log] == ["undo"]
    assert pulled(floor) is None
    assert [event.kind for event in floor.server.log] == ["undo", "set"]


def test_an_undo_of_somebody_else_does_nothing(floor):
    target = count(floor, "bench", 4)
    floor.settle()
    undo(floor, "shelf", target, actor="oda")
    assert pulled(floor) == Tally(4, 0, 4, False)


def test_undoing_twice_is_undoing_once_and_an_undo_stays(floor):
    count(floor, "bench", 4)
    target = count(floor, "bench", 6)
    undo(floor, "bench", undo(floor, "bench", target))
    undo(floor, "bench", target)
    assert pulled(floor) == Tally(4, 0, 4, False)


def test_a_late_undo_takes_nothing_back(floor):
    target = count(floor, "bench", 4)
    floor.settle()
    floor.server.closed = True
    undo(floor, "bench", target)
    assert pulled(floor) == Tally(4, 0, 4, False)


def test_what_comes_after_closing_is_kept_and_not_counted_also_when_the_list_opens_again(floor):
    count(floor, "bench", 4)
    floor.settle()
    floor.server.closed = True
    count(floor, "shelf", 9)
    floor.settle()
    floor.server.closed = False
    assert pulled(floor) == Tally(4, 0, 4, False)
    assert [event.late for event in floor.server.log] == [False, True]


def test_a_count_over_a_late_one_is_not_held_up_by_it(floor):
    floor.server.closed = True
    count(floor, "shelf", 9)
    floor.settle()
    floor.server.closed = False
    count(floor, "bench", 4)
    assert pulled(floor) == Tally(4, 0, 4, False)


def test_a_copy_that_waits_beside_what_came_back_changes_nothing(floor):
    count(floor, "bench", 4)
    floor.send("bench")
    floor.pull("shelf")
    find(floor, "shelf", 1)
    floor.send("shelf")
    floor.phones["bench"].pull(floor.server, 500)
    assert len(floor.phones["bench"].queue) == 1
    assert fold(floor.phones["bench"].screen) == fold(floor.server.log) == {"pin": Tally(5, 0, 5, False)}


def test_a_waiting_copy_of_what_came_late_is_late_too(floor):
    floor.server.closed = True
    count(floor, "bench", 4)
    floor.send("bench")
    floor.phones["bench"].pull(floor.server, 500)
    assert len(floor.phones["bench"].queue) == 1
    assert fold(floor.phones["bench"].screen) == {}


def test_after_a_wipe_the_same_person_is_another_phone(floor):
    count(floor, "bench", 4)
    floor.send("bench")
    floor.wipe("bench")
    count(floor, "bench", 6)
    assert pulled(floor) == Tally(6, 0, 4, True)


def test_a_count_made_over_one_that_a_restore_took_does_not_silence_what_came_in_its_place(floor):
    """shelf saw bench's count in place 1. After the restore place 1 is another count, which nobody on shelf saw."""
    count(floor, "bench", 4)
    floor.send("bench")
    floor.pull("shelf")
    count(floor, "shelf", 6)
    floor.server.restore()
    floor.wipe("bench")
    count(floor, "bench", 5)
    floor.send("bench")
    assert pulled(floor) == Tally(6, 0, 5, True)


def test_until_a_count_from_before_a_restore_is_sent_its_own_phone_does_not_trust_it_either(floor):
    count(floor, "bench", 4)
    floor.send("bench")
    floor.pull("shelf")
    count(floor, "shelf", 6)
    floor.server.restore()
    floor.wipe("bench")
    count(floor, "bench", 5)
    floor.send("bench")
    floor.pull("shelf")
    assert fold(floor.phones["shelf"].screen) == {"pin": Tally(6, 0, 5, True)}


def test_what_two_restores_cut_is_seen_no_further_than_the_shorter_log(floor):
    count(floor, "bench", 1)
    floor.settle()
    floor.server.backup = tuple(floor.server.log)
    count(floor, "bench", 2)
    floor.settle()
    count(floor, "shelf", 9)
    floor.server.restore()
    floor.server.backup = ()
    floor.server.restore()
    floor.phones.pop("bench")
    floor.wipe("bench")
    count(floor, "bench", 5)
    floor.send("bench")
    assert pulled(floor) == Tally(9, 0, 5, True)


def test_after_all_a_fresh_count_settles_it(floor):
    count(floor, "bench", 4)
    count(floor, "shelf", 6)
    find(floor, "bench", 2)
    floor.settle()
    count(floor, "shelf", 5, 1)
    assert pulled(floor) == Tally(5, 1, 5, False)


def test_a_find_of_nothing_known_here_is_on_top_of_nothing(floor):
    find(floor, "bench", 2)
    find(floor, "bench", 1, 1)
    assert pulled(floor) == Tally(3, 1, 3, False)


def test_no_clock_is_read_and_nothing_is_drawn_by_lot():
    tree = ast.parse(inspect.getsource(counting))
    named = {statement.module for statement in ast.walk(tree) if isinstance(statement, ast.ImportFrom)}
    plain = {
        alias.name for statement in ast.walk(tree) if isinstance(statement, ast.Import) for alias in statement.names
    }
    assert named | plain <= {"bisect", "collections", "collections.abc", "dataclasses", "hashlib", "itertools", "json"}


def comes_while_the_pad_is_open(floor: Floor) -> Begun:
    """The pad on the bench is open when a count of two arrives there."""
    pad = floor.begin("bench")
    count(floor, "shelf", 2, actor="oda")
    floor.send("shelf")
    floor.pull("bench")
    return pad


@pytest.mark.parametrize("kind", ["set", "add"])
def test_what_was_begun_before_another_count_came_asks(floor, kind):
    pad = comes_while_the_pad_is_open(floor)
    floor.act("bench", "ines", kind, "pin", (3, 0), begun=pad)
    assert fold(floor.phones["bench"].screen)["pin"].confirm
    assert pulled(floor).confirm


def test_what_is_chosen_over_another_count_that_came_stands(floor):
    comes_while_the_pad_is_open(floor)
    count(floor, "bench", 3)
    assert pulled(floor) == Tally(3, 0, 3, False)


def test_a_pad_that_stayed_open_does_not_know_what_its_phone_found_later_was_added_to(floor):
    """Ines has her own add on the screen, but not Oda's count, to which she had added it in another tab."""
    pad = comes_while_the_pad_is_open(floor)
    find(floor, "bench", 1)
    floor.act("bench", "ines", "set", "pin", (4, 0), begun=pad)
    assert pulled(floor) == Tally(4, 0, 2, True)
