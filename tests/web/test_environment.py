"""Secrets come from files where an environment should not hold them."""

from pathlib import Path

import pytest

from gaugerake.environment import UnreadableSetting, take_files


def test_a_file_stands_in_for_a_setting(tmp_path: Path) -> None:
    (tmp_path / "secret").write_text("kept in a file\n", "utf-8")
    environment = {"GAUGERAKE_SECRETS_FILE": str(tmp_path / "secret"), "PATH": "/bin"}
    take_files(environment)
    assert environment == {"GAUGERAKE_SECRETS": "kept in a file", "PATH": "/bin"}


@pytest.mark.parametrize("name", ["GAUGERAKE_DATABASE", "GAUGERAKE_SECRETS", "GAUGERAKE_LIMITS"])
def test_what_holds_a_password_may_be_a_file(tmp_path: Path, name: str) -> None:
    (tmp_path / "kept").write_text("x", "utf-8")
    environment = {f"{name}_FILE": str(tmp_path / "kept")}
    take_files(environment)
    assert environment == {name: "x"}


def test_an_empty_name_is_none() -> None:
    environment = {"GAUGERAKE_DATABASE_FILE": "", "GAUGERAKE_DATABASE": "sqlite:////a"}
    take_files(environment)
    assert environment == {"GAUGERAKE_DATABASE": "sqlite:////a"}


def test_both_are_refused(tmp_path: Path) -> None:
    with pytest.raises(UnreadableSetting, match="GAUGERAKE_SECRETS and GAUGERAKE_SECRETS_FILE are both set"):
        take_files({"GAUGERAKE_SECRETS_FILE": str(tmp_path), "GAUGERAKE_SECRETS": "one"})


def test_a_file_that_cannot_be_read_is_named(tmp_path: Path) -> None:
    (tmp_path / "binary").write_bytes(b"\xff")
    for file in ("none", "binary", "."):
        with pytest.raises(UnreadableSetting, match=r"GAUGERAKE_DATABASE_FILE names .* which cannot be read"):
            take_files({"GAUGERAKE_DATABASE_FILE": str(tmp_path / file)})
