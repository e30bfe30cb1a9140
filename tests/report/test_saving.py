import os
from pathlib import Path

import pytest

from workbook_tools.report.saving import CannotWrite, save


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
