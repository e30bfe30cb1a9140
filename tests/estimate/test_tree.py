import numpy as np
import pytest

from workbook_tools.estimate._tree import Message, Tree

BETWEEN, APART, TOP = 0.3, 0.2, 0.5
TREE = Tree(np.array([0, 0, 0, 1, 2, 2]), np.array([0, 0, 1]), 3, BETWEEN, APART, TOP)
SURE = np.array([4.0, 0.5, 0.0, 9.0, 0.0, 2.0])
PULL = np.array([3.0, -0.2, 0.0, 5.0, 0.0, -3.0])


def joint():
    kind = TREE.class_of[TREE.group]
    shared = APART * (TREE.group[:, None] == TREE.group) + TOP * (kind[:, None] == kind)
    return BETWEEN * np.eye(6) + shared


@pytest.mark.parametrize("bin", range(6))
def test_what_the_others_say_of_a_bin_is_its_marginal_under_the_joint_normal_without_its_own_message(bin):
    others = np.arange(6) != bin
    precision = np.linalg.inv(joint()) + np.diag(SURE * others)
    covariance = np.linalg.inv(precision)

    mean, variance = TREE.others(Message(SURE, PULL))

    assert mean[bin] == pytest.approx((covariance @ (PULL * others))[bin])
    assert variance[bin] == pytest.approx(covariance[bin, bin])


def test_a_bin_of_a_class_without_any_message_is_as_usual():
    mean, variance = TREE.others(Message(np.zeros(6), np.zeros(6)))

    assert mean == pytest.approx(np.zeros(6))
    assert variance == pytest.approx(np.full(6, BETWEEN + APART + TOP))


def test_the_log_mass_is_the_integral_of_messages_and_tree():
    covariance = np.linalg.inv(np.linalg.inv(joint()) + np.diag(SURE))
    wanted = 0.5 * (PULL @ covariance @ PULL + np.linalg.slogdet(covariance)[1] - np.linalg.slogdet(joint())[1])

    assert TREE.log_mass(Message(SURE, PULL)) == pytest.approx(wanted)


def test_the_most_likely_spreads_are_where_no_step_leads_away():
    own = Message(np.full(6, 50.0), 50.0 * np.array([0.9, -0.3, 0.2, 0.4, -0.8, -0.1]))
    tree = TREE
    for _ in range(300):
        between, apart = tree.spreads(own, (BETWEEN, APART), 4.0)
        tree = Tree(tree.group, tree.class_of, 3, between, apart, TOP)

    def likely(between, apart):
        usual = 2 * (np.log(between) + BETWEEN / between + np.log(apart) + APART / apart)
        return Tree(tree.group, tree.class_of, 3, between, apart, TOP).log_mass(own) - usual

    best = likely(between, apart)
    for step in (0.98, 1.02):
        assert likely(between * step, apart) < best
        assert likely(between, apart * step) < best


def test_a_chain_of_parents_is_the_normal_in_which_each_keeps_a_part_of_what_sets_its_parent_apart():
    keeps, sure, pull = 0.7, np.array([4.0, 1.5, 0.0, 2.0]), np.array([3.0, -0.6, 0.0, 1.0])
    alone = Tree(np.zeros(4, dtype=np.int64), np.array([0]), 3, BETWEEN, 1e-9, 1e-9)
    parent = np.array([-1, 0, 1, -1])
    steps = np.array([[0, 1, 2], [1, 0, 1], [2, 1, 0]])
    covariance = np.linalg.inv(np.linalg.inv(BETWEEN * keeps**steps) + np.diag(sure[:3]))

    shift, known = alone.after_parents(Message(sure, pull), parent, keeps)

    assert shift[2] == pytest.approx((covariance @ pull[:3])[2], abs=1e-6)
    assert BETWEEN - known[2] == pytest.approx(covariance[2, 2], abs=1e-6)
    assert (shift[[0, 3]] == 0).all()
    assert (known[[0, 3]] == 0).all()


def test_a_parent_that_has_shown_nothing_changes_nothing():
    shift, known = TREE.after_parents(Message(np.zeros(6), np.zeros(6)), np.array([-1, 0, 1, -1, -1, 4]), 0.8)

    assert shift == pytest.approx(np.zeros(6))
    assert known == pytest.approx(np.zeros(6))
