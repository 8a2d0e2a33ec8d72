"""docker/: the files are sound by their linters, and say what they must.

No engine is needed: hadolint reads the Dockerfile, the compose specification's schema the compose file; nginx reads
its own file in tests/faults, which runs it.
"""

import os
import re
import runpy
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
import yaml

from gaugerake.web.server import own_settings

DOCKER = Path(__file__).parents[2] / "docker"
DOCKERFILE = (DOCKER / "Dockerfile").read_text("utf-8")
COMPOSE: dict[str, Any] = yaml.safe_load((DOCKER / "compose.yaml").read_text("utf-8"))
NGINX = (DOCKER / "nginx.conf").read_text("utf-8")


def tool(name: str) -> str:
    """A tool of the test environment, beside its Python."""
    beside = Path(sys.executable).parent / name
    return str(beside) if beside.exists() else shutil.which(name) or name


def test_hadolint_finds_nothing() -> None:
    done = subprocess.run([tool("hadolint"), str(DOCKER / "Dockerfile")], capture_output=True, text=True)
    assert (done.returncode, done.stdout) == (0, "")


def test_the_compose_file_is_one() -> None:
    command = [tool("check-jsonschema"), "--builtin-schema", "vendor.compose-spec", str(DOCKER / "compose.yaml")]
    done = subprocess.run(command, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout


def test_the_image_is_built_from_the_lock_and_run_by_nobody() -> None:
    from_lock = [line for line in DOCKERFILE.splitlines() if "pip install" in line and "--no-index" not in line]
    assert len(from_lock) == 2
    assert all("--require-hashes --only-binary :all:" in line for line in from_lock)
    # psychrolib has no wheel; what builds it is the lock's own setuptools
    assert re.findall(r"--no-binary (.*)", "\n".join(from_lock)) == ["psychrolib --no-build-isolation \\"]
    assert DOCKERFILE.count("FROM ${PYTHON}") == 2
    user = [line for line in DOCKERFILE.splitlines() if line.startswith("USER ")]
    assert user == ["USER 10001:10001"]
    assert "/healthz" in DOCKERFILE


@pytest.mark.parametrize("name", COMPOSE["services"])
def test_every_container_is_contained(name: str) -> None:
    service = COMPOSE["services"][name]
    assert service["read_only"] is True
    assert service["cap_drop"] == ["ALL"]
    assert service["security_opt"] == ["no-new-privileges:true"]
    assert service["mem_limit"]
    assert service["pids_limit"]
    assert ":" in service["image"]
    assert "latest" not in service["image"]
    assert not {"privileged", "network_mode", "pid", "volumes_from"} & service.keys()


@pytest.mark.parametrize("name", ["edge", "api-1", "api-2"])
def test_what_waits_for_slow_clients_takes_no_memory(name: str) -> None:
    assert COMPOSE["services"][name]["volumes"] == ["/tmp"]
    assert "tmpfs" not in COMPOSE["services"][name]


def test_batches_leave_threads_even_where_one_replica_has_to_do_for_all() -> None:
    given = runpy.run_path(str(DOCKER / "gunicorn.conf.py"))
    (workers,) = re.findall(r'"--workers", "(\d+)"', DOCKERFILE)
    (batches,) = re.findall(r"limit_conn batches (\d+);", NGINX)
    assert int(batches) < given["threads"] * int(workers)


def test_the_memory_of_the_edge_holds_all_its_buffers() -> None:
    (connections,) = {*re.findall(r"limit_conn everyone (\d+);", NGINX)}
    (body,) = {*re.findall(r"client_body_buffer_size (\d+)k;", NGINX)} - {"16"}
    ((count, size),) = re.findall(r"proxy_buffers (\d+) (\d+)k;", NGINX)
    assert int(connections) * (int(body) + int(count) * int(size)) < 1024 * int(
        COMPOSE["services"]["edge"]["mem_limit"].removesuffix("m")
    )


def test_only_the_edge_has_doors_and_only_the_replicas_see_the_database() -> None:
    services = COMPOSE["services"]
    assert [name for name, service in services.items() if "ports" in service] == ["edge"]
    assert sorted(name for name, service in services.items() if "store" in service["networks"]) == [
        "api-1",
        "api-2",
        "backup",
        "database",
        "restore",
    ]
    assert COMPOSE["services"]["backup"]["profiles"] == COMPOSE["services"]["restore"]["profiles"] == ["backup"]
    assert sorted(name for name, service in services.items() if "counts" in service["networks"]) == [
        "api-1",
        "api-2",
        "counter",
    ]
    assert COMPOSE["networks"]["counts"]["internal"] is True
    assert COMPOSE["networks"]["store"]["internal"] is COMPOSE["networks"]["inside"]["internal"] is True


def test_no_secret_stands_in_the_file() -> None:
    for service in COMPOSE["services"].values():
        for name in service.get("environment", {}):
            assert not name.endswith(("PASSWORD", "SECRET", "SECRETS", "DATABASE", "KEY"))
    assert all(secret["file"].startswith("secrets/") for secret in COMPOSE["secrets"].values())
    ignored = subprocess.run(["git", "check-ignore", "-q", "docker/secrets/any"], cwd=DOCKER.parent)
    assert ignored.returncode == 0


def test_every_container_has_a_limit_of_processors_and_memory() -> None:
    for service in COMPOSE["services"].values():
        assert {"cpus", "mem_limit", "pids_limit"} <= service.keys()


def test_the_database_is_ready_only_when_it_answers_by_tcp() -> None:
    test = COMPOSE["services"]["database"]["healthcheck"]["test"]
    assert test[test.index("-h") + 1] == "127.0.0.1"


def test_nginx_names_each_replica() -> None:
    replicas = {name for name in COMPOSE["services"] if name.startswith("api-")}
    assert len(replicas) >= 2
    assert {
        line.split()[1].split(":")[0] for line in NGINX.splitlines() if line.strip().startswith("server api")
    } == replicas


def test_gunicorns_file_has_only_settings_of_gunicorns_and_ours() -> None:
    given = runpy.run_path(str(DOCKER / "gunicorn.conf.py"))
    strange = {name for name in given if not name.startswith("_")} - own_settings.known()
    assert strange == {"os"}
    assert given["worker_class"] == "gaugerake.web.server.worker.Worker"
    assert given["watched_seconds"] < given["timeout"]
    assert given["control_socket_disable"] is True
    assert (given["forwarded_allow_ips"], given["secure_scheme_headers"], given["forwarder_headers"]) == ("", {}, "")


@pytest.mark.skipif(not os.environ.get("CI"), reason="the machine of whoever works on it may lack some")
@pytest.mark.parametrize("name", ["nginx", "openssl", "faketime"])
def test_what_the_fault_tests_need_is_there(name: str) -> None:
    assert shutil.which(name)
