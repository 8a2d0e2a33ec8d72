"""Gunicorn's settings: the ones of ``gaugerake serve``, in a checkout, in a container and in the tests alike.

``bind`` and ``workers`` come from the command line. Slow clients are the proxy's business (nginx.conf beside this):
``timeout`` is a heartbeat of the worker and not a limit of a request. ``watched_seconds`` and ``most_memory_mb`` are
settings of our own.
"""

import os

worker_class = "gaugerake.web.server.worker.Worker"
logger_class = "gaugerake.web.server.worker.Log"
threads = 8
worker_connections = 1000
backlog = 2048
timeout = 30
# what is worked on for so long is logged, before a worker that no longer beats is ended with it
watched_seconds = 20
# a worker with more than this in memory (10^6 bytes; it begins with some 90) retires between requests; 0 is no bound
most_memory_mb = 300
graceful_timeout = 30
keepalive = 5

# what is read of a request line and its headers
limit_request_line = 8190
limit_request_fields = 64
limit_request_field_size = 8190

# the heartbeat file in memory: a disk that hangs must not look like a worker that hangs
worker_tmp_dir = "/dev/shm" if os.access("/dev/shm", os.W_OK) else None
control_socket_disable = True
proc_name = "gaugerake"

# whose word counts for the client's address and scheme is said once, by GAUGERAKE_PROXY_HOPS
forwarded_allow_ips = ""
secure_scheme_headers = {}
forwarder_headers = ""

logconfig_dict = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"lines": {"()": "gaugerake.web.observe.traces.JsonLines"}},
    "handlers": {"out": {"class": "logging.StreamHandler", "stream": "ext://sys.stdout", "formatter": "lines"}},
    "root": {"level": "WARNING", "handlers": ["out"]},
    "loggers": {
        "gaugerake": {"level": "INFO", "handlers": ["out"], "propagate": False},
        "gunicorn.error": {"level": "INFO", "handlers": ["out"], "propagate": False},
        "gunicorn.access": {"level": "CRITICAL", "handlers": [], "propagate": False},
    },
}
