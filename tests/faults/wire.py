"""A proxy between the service and its database that can be cut, stopped or slowed while it is in use."""

import contextlib
import socket
import threading
import time

from tests.faults.processes import free_port


class Wire:
    """Passes bytes on to a port of this machine, each piece after ``delay`` [s], and none while ``hangs`` is set."""

    def __init__(self, to: int) -> None:
        self.port, self.to = free_port(), to
        self.delay = 0.0
        self.hangs = False
        self._open: list[socket.socket] = []
        self._listener: socket.socket | None = None
        self.mend()

    def mend(self) -> None:
        """Take connections again."""
        self._listener = socket.create_server(("127.0.0.1", self.port))
        threading.Thread(target=self._accept, args=(self._listener,), daemon=True).start()

    def cut(self) -> None:
        """Refuse new connections and break those there are."""
        if self._listener:
            with contextlib.suppress(OSError):
                self._listener.shutdown(socket.SHUT_RDWR)
            self._listener.close()
        for end in self._open:
            with contextlib.suppress(OSError):
                end.shutdown(socket.SHUT_RDWR)
        self._open.clear()

    def _accept(self, listener: socket.socket) -> None:
        while True:
            try:
                near, _ = listener.accept()
            except OSError:
                return
            try:
                far = socket.create_connection(("127.0.0.1", self.to))
            except OSError:
                near.close()
                continue
            self._open += [near, far]
            for source, sink in ((near, far), (far, near)):
                threading.Thread(target=self._pass_on, args=(source, sink), daemon=True).start()

    def _pass_on(self, source: socket.socket, sink: socket.socket) -> None:
        with contextlib.suppress(OSError):
            while data := source.recv(65_536):
                time.sleep(self.delay)
                while self.hangs:
                    time.sleep(0.05)
                sink.sendall(data)
        for end in (source, sink):
            with contextlib.suppress(OSError):
                end.shutdown(socket.SHUT_RDWR)
        source.close()
