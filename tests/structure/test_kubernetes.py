"""docker/kubernetes.yaml is sound by Kubernetes' own schemas, and its parts fit one another and the image.

No cluster is needed, and none was at hand: whether it runs is unproven.
"""

import re
import runpy
from pathlib import Path
from typing import Any

import kubernetes_validate
import pytest
import yaml

from gaugerake.environment import MAY_BE_FILES

DOCKER = Path(__file__).parents[2] / "docker"
PARTS: list[dict[str, Any]] = list(yaml.safe_load_all((DOCKER / "kubernetes.yaml").read_text("utf-8")))
VERSIONS = ("1.30", kubernetes_validate.latest_version())
"""The oldest that it is held to, and the newest that is known."""
LABELS = {"app.kubernetes.io/name": "gaugerake", "app.kubernetes.io/component": "api"}


def part(kind: str, name: str = "api") -> dict[str, Any]:
    """The one part of a kind and name."""
    [found] = [one for one in PARTS if (one["kind"], one["metadata"]["name"]) == (kind, name)]
    return found


POD: dict[str, Any] = part("Deployment")["spec"]["template"]["spec"]
CONTAINER: dict[str, Any] = POD["containers"][0]
SETTINGS: dict[str, str] = part("ConfigMap", "settings")["data"]


@pytest.mark.parametrize("version", VERSIONS)
@pytest.mark.parametrize("one", PARTS, ids=lambda one: f"{one['kind']} {one['metadata']['name']}")
def test_a_part_is_sound_by_its_schema(one: dict[str, Any], version: str) -> None:
    kubernetes_validate.validate(one, version, strict=True)


def test_a_slip_is_found() -> None:
    slip = {**part("Deployment"), "spec": {**part("Deployment")["spec"], "replica": 2}}
    with pytest.raises(kubernetes_validate.ValidationError):
        kubernetes_validate.validate(slip, VERSIONS[0], strict=True)


def test_whoever_selects_replicas_finds_them() -> None:
    pod = part("Deployment")["spec"]["template"]["metadata"]["labels"]
    assert pod == LABELS
    assert part("Deployment")["spec"]["selector"]["matchLabels"] == LABELS
    assert part("Service")["spec"]["selector"] == LABELS
    assert part("PodDisruptionBudget")["spec"]["selector"]["matchLabels"] == LABELS
    assert part("NetworkPolicy")["spec"]["podSelector"]["matchLabels"].items() <= LABELS.items()
    target = part("HorizontalPodAutoscaler")["spec"]["scaleTargetRef"]
    assert (target["kind"], target["name"]) == ("Deployment", "api")
    assert "replicas" not in part("Deployment")["spec"]


def test_all_but_the_namespace_stand_in_it() -> None:
    assert {one["metadata"].get("namespace") for one in PARTS if one["kind"] != "Namespace"} == {"gaugerake"}


def test_no_secret_stands_in_the_file() -> None:
    assert "Secret" not in {one["kind"] for one in PARTS}
    assert not set(SETTINGS) & set(MAY_BE_FILES)
    [mounted] = [one["mountPath"] for one in CONTAINER["volumeMounts"] if one["name"] == "secrets"]
    [volume] = [one["secret"] for one in POD["volumes"] if one["name"] == "secrets"]
    files = {f"{mounted}/{item['path']}" for item in volume["items"]}
    assert files == {SETTINGS[f"{name}_FILE"] for name in MAY_BE_FILES}
    readme = (DOCKER / "README.md").read_text("utf-8")
    assert all(f"--from-file={item['key']}=" in readme for item in volume["items"])


def test_a_replica_is_contained() -> None:
    assert POD["automountServiceAccountToken"] is False
    assert POD["securityContext"]["runAsNonRoot"] is True
    (user,) = re.findall(r"^USER (\d+):", (DOCKER / "Dockerfile").read_text("utf-8"), re.M)
    assert POD["securityContext"]["runAsUser"] == int(user)
    assert CONTAINER["securityContext"]["readOnlyRootFilesystem"] is True
    assert CONTAINER["securityContext"]["capabilities"] == {"drop": ["ALL"]}
    assert [one["mountPath"] for one in CONTAINER["volumeMounts"] if not one.get("readOnly")] == ["/tmp"]


def test_probes_ask_what_the_service_has_and_a_database_that_is_away_ends_no_replica() -> None:
    asked = {name: CONTAINER[name]["httpGet"] for name in ("startupProbe", "livenessProbe", "readinessProbe")}
    assert {name: one["path"] for name, one in asked.items()} == {
        "startupProbe": "/healthz",
        "livenessProbe": "/healthz",
        "readinessProbe": "/readyz",
    }
    assert {one["port"] for one in asked.values()} == {"http"}
    assert CONTAINER["ports"] == [{"name": "http", "containerPort": 8080}]
    assert "TRUSTED_HOSTS" not in " ".join(SETTINGS), "probes and scrapes ask by address; the ingress holds the names"


def test_a_replica_has_time_to_answer_what_it_has_in_hand() -> None:
    waits = int(CONTAINER["lifecycle"]["preStop"]["exec"]["command"][1])
    graceful = runpy.run_path(str(DOCKER / "gunicorn.conf.py"))["graceful_timeout"]
    assert POD["terminationGracePeriodSeconds"] > waits + graceful


def test_one_replica_may_be_away_and_another_answers() -> None:
    assert part("HorizontalPodAutoscaler")["spec"]["minReplicas"] >= 2
    assert part("PodDisruptionBudget")["spec"]["maxUnavailable"] == 1
    assert part("Deployment")["spec"]["strategy"]["rollingUpdate"]["maxUnavailable"] == 0


def test_the_ingress_answers_by_tls_and_passes_no_metrics_on() -> None:
    spec = part("Ingress")["spec"]
    [rule] = spec["rules"]
    assert spec["tls"][0]["hosts"] == [rule["host"]]
    assert SETTINGS["GAUGERAKE_ADDRESS"] == f"https://{rule['host']}"
    to = {path["path"]: path["backend"]["service"]["name"] for path in rule["http"]["paths"]}
    assert to == {"/metrics": "nobody", "/": "api"}
    assert "selector" not in part("Service", "nobody")["spec"]


def test_the_network_lets_in_the_port_that_is_served() -> None:
    [way] = part("NetworkPolicy")["spec"]["ingress"]
    assert [one["port"] for one in way["ports"]] == [CONTAINER["ports"][0]["containerPort"]]
