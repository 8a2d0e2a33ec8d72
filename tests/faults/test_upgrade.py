"""One replica after the other goes to a later version and back to this one: nobody waits, and nothing kept is lost."""

import re
import shutil
from pathlib import Path

from tests.builders import retitled
from tests.faults.load import ANSWERED, Load
from tests.faults.processes import ROOT, Postgres, Service, eventually, gaugerake

from gaugerake import __version__

LATER = "99.0.0"
STEP = '''"""What a later version adds."""

import sqlalchemy as sa
from alembic import op

revision = "0099"
down_revision = "0002"


def upgrade() -> None:
    """Add a column, and a table."""
    op.add_column("api_keys", sa.Column("remark", sa.String(80), nullable=True))
    op.create_table("of_a_later_version", sa.Column("name", sa.String(8), primary_key=True))


def downgrade() -> None:
    """Drop them."""
    op.drop_table("of_a_later_version")
    op.drop_column("api_keys", "remark")
'''


def later_version(folder: Path) -> str:
    """This version with another number and one more step of the database; where Python finds it."""
    for name in ("client", "docker", "openapi", "pyproject.toml"):
        (folder / name).symlink_to(ROOT / name)
    package = folder / "api" / "gaugerake"
    shutil.copytree(ROOT / "api" / "gaugerake", package)
    (package / "__init__.py").write_text(f'__version__ = "{LATER}"\n', "utf-8")
    (package / "catalogue/store/migrations/versions/s0099_later.py").write_text(STEP, "utf-8")
    tables = package / "catalogue/store/tables.py"
    text, found = re.subn(r'^SCHEMA = "0002"', 'SCHEMA = "0099"', tables.read_text("utf-8"), flags=re.MULTILINE)
    assert found == 1
    tables.write_text(text, "utf-8")
    return str(package.parent)


def version_of(service: Service) -> str:
    """The version of whoever answers."""
    return next(
        line.partition('version="')[2].partition('"')[0]
        for line in service.text("/metrics").splitlines()
        if line.startswith("gaugerake_version{")
    )


def another_title(database: str, folder: Path, title: str) -> str:
    """Load the demo under another title; its revision."""
    file = folder / "another.yaml"
    file.write_text(retitled(title), "utf-8")
    done = gaugerake(database, "catalogue", "load", str(file))
    assert done.returncode == 0, done.stderr
    return done.stdout.split()[1]


def test_replicas_go_to_a_later_version_and_back_one_after_the_other(postgres: Postgres, tmp_path: Path) -> None:
    database = postgres.new("upgraded")
    api = later_version(tmp_path)
    old = [Service(tmp_path, database), Service(tmp_path, database)]
    new: list[Service] = []
    back: list[Service] = []
    try:
        stays, goes = old
        with Load(stays.port, "before").running() as load:
            goes.stop()
            new.append(Service(tmp_path, database, port=goes.port, PYTHONPATH=api))
            load.wait_for(20)
        assert [one for one in load.sent if one.outcome != ANSWERED] == []
        assert [version_of(stays), version_of(new[0])] == [__version__, LATER]
        postgres.say("SELECT remark FROM api_keys", database.rpartition("/")[2])

        # the other one is renewed too, the shop goes on with it for a while, and then wants the old one back
        stays.stop()
        new.append(Service(tmp_path, database, port=stays.port, PYTHONPATH=api))
        revision = another_title(database, tmp_path, "Loaded since")
        served = f'gaugerake_catalogue_workers{{revision="{revision}"}} 2.0'
        eventually(lambda: served in new[1].text("/metrics"), "the revision served by both workers")
        with Load(new[1].port, "after").running() as load:
            new[0].stop()
            back.append(Service(tmp_path, database, port=goes.port))
            load.wait_for(20)
        assert [one for one in load.sent if one.outcome != ANSWERED] == []
        assert version_of(back[0]) == __version__
        assert back[0].get("/readyz")["stale_since"] is None
        eventually(lambda: served in back[0].text("/metrics"), "the same served by both workers")
        assert gaugerake(database, "key", "make", "North branch").returncode == 0
        assert "North branch" in gaugerake(database, "key", "list").stdout
        assert another_title(database, tmp_path, "Loaded after") != revision
        postgres.say("SELECT name FROM of_a_later_version", database.rpartition("/")[2])
    finally:
        for service in (*old, *new, *back):
            service.stop()
