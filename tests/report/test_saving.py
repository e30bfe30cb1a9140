import os
from pathlib import Path

import pytest

from workbook_tools.report.saving import CannotWrite, save, save_all


def names(folder):
    return sorted(path.name for path in folder.iterdir())


def test_save_replaces_what_is_there_and_leaves_nothing_beside(tmp_path):
    target = tmp_path / "out.xlsx"
    target.write_bytes(b"old")
    save(b"new", target)
    assert target.read_bytes() == b"new"
    assert names(tmp_path) == ["out.xlsx"]


def test_failure_leaves_the_old_file_and_no_half_written_one(tmp_path, monkeypatch):
    target = tmp_path / "out.xlsx"
    target.write_bytes(b"old")

    def refuse(self, other):
        raise PermissionError(13, "in use")

    monkeypatch.setattr(Path, "replace", refuse)
    with pytest.raises(CannotWrite, match="open in another program") as caught:
        save(b"new", target)
    assert caught.value.path == target
    assert target.read_bytes() == b"old"
    assert names(tmp_path) == ["out.xlsx"]


@pytest.mark.parametrize("lock", [".~lock.out.xlsx#", "~$out.xlsx"])
def test_a_file_open_in_another_program_is_not_replaced(tmp_path, lock):
    target = tmp_path / "out.xlsx"
    target.write_bytes(b"old")
    (tmp_path / lock).write_bytes(b"")
    with pytest.raises(CannotWrite, match="open in another program"):
        save(b"new", target)
    assert target.read_bytes() == b"old"


def test_missing_folder_and_folder_as_target_are_named(tmp_path):
    with pytest.raises(CannotWrite, match="there is no folder"):
        save(b"new", tmp_path / "none" / "out.xlsx")
    with pytest.raises(CannotWrite, match="it is a folder"):
        save(b"new", tmp_path)


def test_folder_that_may_not_be_written_to_is_named(tmp_path, monkeypatch):
    if os.geteuid() != 0:
        tmp_path.chmod(0o500)
    else:  # root may write anywhere, so the refusal is made by hand

        def refuse(self, content):
            raise PermissionError(13, "Permission denied")

        monkeypatch.setattr(Path, "write_bytes", refuse)
    with pytest.raises(CannotWrite, match="may not be written to"):
        save(b"new", tmp_path / "out.xlsx")
    tmp_path.chmod(0o700)
    assert names(tmp_path) == []


def test_a_link_is_followed_not_replaced(tmp_path):
    real = tmp_path / "real.xlsx"
    real.write_bytes(b"old")
    link = tmp_path / "link.xlsx"
    link.symlink_to(real)
    save(b"new", link)
    assert link.is_symlink()
    assert real.read_bytes() == b"new"


def test_several_files_are_saved_in_a_folder_that_is_made(tmp_path):
    save_all({"a.csv": b"1", "b.csv": b"2"}, tmp_path / "new" / "er")
    assert {file.name: file.read_bytes() for file in (tmp_path / "new" / "er").iterdir()} == {
        "a.csv": b"1",
        "b.csv": b"2",
    }


@pytest.mark.parametrize("failing", range(1, 6))
def test_if_one_of_several_cannot_be_put_in_its_place_all_stands_as_before(tmp_path, monkeypatch, failing):
    (tmp_path / "a.csv").write_bytes(b"old a")
    (tmp_path / "c.csv").write_bytes(b"old c")
    done, real = [], Path.replace

    def refuse_once(self, other):
        done.append(self)
        if len(done) == failing:
            raise PermissionError(13, "in use")
        return real(self, other)

    monkeypatch.setattr(Path, "replace", refuse_once)
    with pytest.raises(CannotWrite, match="open in another program"):
        save_all({"a.csv": b"new a", "b.csv": b"new b", "c.csv": b"new c"}, tmp_path)
    assert {file.name: file.read_bytes() for file in tmp_path.iterdir()} == {"a.csv": b"old a", "c.csv": b"old c"}


def test_a_folder_made_for_files_that_cannot_be_written_is_gone_again(tmp_path, monkeypatch):
    def full(self, content):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    with pytest.raises(CannotWrite, match="No space left"):
        save_all({"a.csv": b"1"}, tmp_path / "deep" / "out")
    assert names(tmp_path) == []


def test_several_files_are_not_saved_while_one_is_open_in_another_program(tmp_path):
    (tmp_path / ".~lock.b.csv#").write_bytes(b"")
    with pytest.raises(CannotWrite, match="Close it first"):
        save_all({"a.csv": b"1", "b.csv": b"2"}, tmp_path)
    assert names(tmp_path) == [".~lock.b.csv#"]


def test_a_link_in_place_of_one_of_several_is_replaced_and_leads_to_no_loss(tmp_path):
    (tmp_path / "kept.csv").write_bytes(b"kept")
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "a.csv").symlink_to(tmp_path / "kept.csv")
    save_all({"a.csv": b"new"}, tmp_path / "out")
    assert (tmp_path / "kept.csv").read_bytes() == b"kept"
    assert (tmp_path / "out" / "a.csv").read_bytes() == b"new"
