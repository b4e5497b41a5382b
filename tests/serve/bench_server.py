"""A real `fallaway serve` on a folder of its own, and small clients for it. Standard library only.

The binary's path is the environment variable FALLAWAY.
"""
import base64
import contextlib
import http.client
import json
import os
import secrets
import select
import shutil
import signal
import socket
import ssl
import struct
import subprocess
import tempfile
import time
import unittest
from pathlib import Path

BINARY = os.environ.get("FALLAWAY", "")
SOURCE = Path(__file__).resolve().parents[2]
PATIENCE_S = 60  # for what takes milliseconds on a machine with nothing else to do


def new_id():
    return secrets.token_hex(8)


def run(*words, env=None):
    """The program with these words: exit code, stdout, stderr."""
    done = subprocess.run([BINARY, *map(str, words)], capture_output=True, text=True, timeout=300,
                          env={**os.environ, **(env or {})})
    return done.returncode, done.stdout, done.stderr


def free_port_pair():
    """A port that is free with the one above it, on the address that tests open to."""
    while True:
        with socket.socket() as one, socket.socket() as two:
            one.bind((OPEN_TO, 0))
            port = one.getsockname()[1]
            try:
                if port < 65000:
                    two.bind((OPEN_TO, port + 1))
                    return port
            except OSError:
                continue


# An address of every machine that is not the loopback listener's.
OPEN_TO = "127.0.0.2"


class Answer:
    def __init__(self, response):
        self.status = response.status
        self.headers = response.headers
        self.body = response.read()

    @property
    def json(self):
        return json.loads(self.body)

    @property
    def code(self):
        return self.json["error"]["code"]


class Client:
    """One device: keeps its id, its cookie and one connection."""

    def __init__(self, host, port, device=None, tls=None):
        self.host, self.port, self.tls = host, port, tls
        self.device = device or new_id()
        self.cookie = None
        self.connection = None

    @property
    def origin(self):
        return f"{'https' if self.tls else 'http'}://{self.host}:{self.port}"

    def connect(self):
        if self.tls:
            return http.client.HTTPSConnection(self.host, self.port, timeout=PATIENCE_S, context=self.tls)
        return http.client.HTTPConnection(self.host, self.port, timeout=PATIENCE_S)

    def ask(self, method, path, body=None, headers=None, type="application/json"):
        wanted = {"X-Device": self.device, "Origin": self.origin}
        if body is not None and not isinstance(body, (bytes, str)):
            body = json.dumps(body)
        if body is not None:
            wanted["Content-Type"] = type
        if self.cookie:
            wanted["Cookie"] = self.cookie
        wanted.update(headers or {})
        wanted = {name: value for name, value in wanted.items() if value is not None}
        for last in (False, True):
            self.connection = self.connection or self.connect()
            try:
                self.connection.request(method, path, body, wanted)
                return Answer(self.connection.getresponse())
            except (http.client.RemoteDisconnected, BrokenPipeError, ConnectionResetError):
                # Kept alive and closed meanwhile: once more on a new one.
                self.close()
                if last:
                    raise

    def close(self):
        if self.connection:
            self.connection.close()
            self.connection = None

    def get(self, path, **more):
        return self.ask("GET", path, **more)

    def post(self, path, body, **more):
        return self.ask("POST", path, body, **more)

    def put(self, path, body, **more):
        return self.ask("PUT", path, body, **more)

    def live(self, visit=None, since=0, **more):
        query = f"device={self.device}" + (f"&visit={visit}&since={since}" if visit else "")
        return Live(self, f"/api/live?{query}", **more)

    def open_visit(self, kind="electric guitar", **facts):
        visit = new_id()
        answer = self.post("/api/visits", {"id": visit, "kind": kind, **facts})
        assert answer.status == 200, answer.body
        return visit

    def add(self, visit, *entries):
        return self.post(f"/api/visits/{visit}/entries", {"entries": list(entries)})

    def write(self, visit, *entries):
        """Entries that must be taken; the seq after them."""
        answer = self.add(visit, *entries)
        assert answer.status == 200, answer.body
        return answer.json["seq"]


def entry(path, value=None, replaces=(), saw=0):
    made = {"id": new_id(), "path": path, "saw": saw}
    if value is not None:
        made["value"] = value
    if replaces:
        made["replaces"] = list(replaces)
    return made


def height(string, text, **more):
    return entry("/readings", {"what": "string height", "at": {"string": string, "fret": 12}, "value": text,
                               "tool": "steel rule 0.5 mm"}, **more)


class Live:
    """A WebSocket (RFC 6455) that takes and sends text messages."""

    def __init__(self, client, target, headers=None):
        self.socket = socket.create_connection((client.host, client.port), timeout=PATIENCE_S)
        if client.tls:
            self.socket = client.tls.wrap_socket(self.socket, server_hostname=client.host)
        wanted = {"Host": f"{client.host}:{client.port}", "Origin": client.origin, "Upgrade": "websocket",
                  "Connection": "Upgrade", "Sec-WebSocket-Version": "13",
                  "Sec-WebSocket-Key": base64.b64encode(os.urandom(16)).decode()}
        if client.cookie:
            wanted["Cookie"] = client.cookie
        wanted.update(headers or {})
        head = "".join(f"{name}: {value}\r\n" for name, value in wanted.items() if value is not None)
        self.socket.sendall(f"GET {target} HTTP/1.1\r\n{head}\r\n".encode())
        self.rest = b""
        answer = self._until(b"\r\n\r\n")
        self.status = int(answer.split()[1])

    def _until(self, mark):
        while mark not in self.rest:
            more = self.socket.recv(65536)
            if not more:
                break
            self.rest += more
        found, _, self.rest = self.rest.partition(mark)
        return found

    def _take(self, count):
        while len(self.rest) < count:
            more = self.socket.recv(65536)
            if not more:
                raise ConnectionError("the other end is gone")
            self.rest += more
        taken, self.rest = self.rest[:count], self.rest[count:]
        return taken

    def send(self, message, opcode=1):
        data = message if isinstance(message, bytes) else json.dumps(message).encode()
        mask = os.urandom(4)
        size = len(data)
        length = bytes([0x80 | size]) if size < 126 else \
            struct.pack("!BH", 0xFE, size) if size < 65536 else struct.pack("!BQ", 0xFF, size)
        masked = bytes(byte ^ mask[i % 4] for i, byte in enumerate(data))
        self.socket.sendall(bytes([0x80 | opcode]) + length + mask + masked)

    def frame(self):
        """(opcode, payload) of the next whole message."""
        opcode, payload = 0, b""
        while True:
            first, second = self._take(2)
            size = second & 0x7F
            if size == 126:
                size = struct.unpack("!H", self._take(2))[0]
            elif size == 127:
                size = struct.unpack("!Q", self._take(8))[0]
            payload += self._take(size)
            opcode = opcode or first & 0x0F
            if first & 0x80:
                return opcode, payload

    def heard(self, type, **wanted):
        """The next message of that type with those values."""
        end = time.monotonic() + PATIENCE_S
        while time.monotonic() < end:
            opcode, payload = self.frame()
            if opcode == 8:
                raise ConnectionError(f"closed with {struct.unpack('!H', payload[:2])[0]}")
            if opcode == 9:
                self.send(payload, opcode=10)
            if opcode != 1:
                continue
            message = json.loads(payload)
            if message["type"] == type and all(message.get(key) == value for key, value in wanted.items()):
                return message
        raise TimeoutError(f"no {type} with {wanted}")

    def close_code(self):
        """Reads on until the line is closed; None when it just ended."""
        try:
            while True:
                opcode, payload = self.frame()
                if opcode == 8:
                    return struct.unpack("!H", payload[:2])[0]
        except ConnectionError:
            return None

    def close(self):
        self.socket.close()


class Server:
    """`fallaway serve`, stopped at the end of a with block."""

    def __init__(self, folder=None, *words, wrap=()):
        self.own_folder = folder is None
        self.folder = Path(folder or tempfile.mkdtemp(prefix="fallaway_serve_"))
        self.words = words
        self.wrap = wrap
        self.process = None
        self.clients = []

    def start(self):
        words = [BINARY, "serve", "--json", "--shop", str(self.folder), *self.words]
        if "--port" not in words:
            words += ["--port", "0"]
        self.process = subprocess.Popen([*self.wrap, *words], stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        ready, _, _ = select.select([self.process.stdout], [], [], PATIENCE_S)
        line = self.process.stdout.readline() if ready else b""
        if not line:
            self.process.kill()
            raise RuntimeError(f"no server: {self.process.communicate()}")
        self.said = json.loads(line)
        self.port = int(self.said["address"].rstrip("/").rsplit(":", 1)[1])
        return self

    def client(self, **more):
        return self._known(Client("127.0.0.1", self.port, **more))

    def _known(self, client):
        self.clients.append(client)
        return client

    def kill(self):
        self.process.send_signal(signal.SIGKILL)
        self._reap()

    def stop(self):
        """Asks it to end; its exit code."""
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGTERM)
        return self.wait()

    def wait(self):
        self._reap()
        return self.process.returncode

    def _reap(self):
        for client in self.clients:
            client.close()
        try:
            self.out, self.err = self.process.communicate(timeout=PATIENCE_S)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.communicate()
            raise

    def __enter__(self):
        return self.start()

    def __exit__(self, *_):
        try:
            self.stop()
        finally:
            if self.own_folder:
                shutil.rmtree(self.folder, ignore_errors=True)


class OpenedServer(Server):
    """Open to OPEN_TO, for devices that were paired."""

    def __init__(self, folder=None, *words):
        self.open_port = free_port_pair()
        super().__init__(folder, "--open-to", OPEN_TO, "--port", str(self.open_port), *words)

    def trusting(self):
        """What a device that trusts this shop's authority checks with."""
        with contextlib.closing(http.client.HTTPConnection(OPEN_TO, self.open_port + 1, timeout=PATIENCE_S)) as line:
            line.request("GET", "/authority.crt")
            return ssl.create_default_context(cadata=line.getresponse().read().decode())

    def tablet(self):
        return self._known(Client(OPEN_TO, self.open_port, tls=self.trusting()))

    def paired(self, name="bench tablet"):
        """A new tablet that was let in."""
        tablet = self.tablet()
        code = self.client().post("/api/pairing", {}).json["code"]
        answer = tablet.post("/api/pair", {"code": code, "name": name})
        assert answer.status == 200, answer.body
        tablet.cookie = answer.headers["Set-Cookie"].split(";")[0]
        tablet.device = answer.json["device"]["id"]
        return tablet


class ServedTest(unittest.TestCase):
    """One server for all tests of a class."""

    server_class = Server
    words = ()

    @classmethod
    def setUpClass(cls):
        cls.server = cls.server_class(None, *cls.words)
        cls.addClassCleanup(shutil.rmtree, cls.server.folder, True)
        cls.server.start()
        cls.addClassCleanup(cls.server.stop)

    def setUp(self):
        self.desk = self.server.client()
