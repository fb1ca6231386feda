"""A throwaway cluster of the system's PostgreSQL in a folder of its own, its settings as they come (fsync on)."""
import glob
import os
import pathlib
import socket
import subprocess

PROGRAMS = pathlib.Path(sorted(glob.glob("/usr/lib/postgresql/*/bin"))[-1])
ROOT = os.geteuid() == 0


def as_server(*command, environment=None):
    """Runs a program of the server, which refuses to run as root."""
    before = ["setpriv", "--reuid=postgres", "--regid=postgres", "--clear-groups"] if ROOT else []
    # For the program alone, not for what changes the user before it.
    given = ["env", *(f"{name}={value}" for name, value in environment.items())] if environment else []
    subprocess.run([*before, *given, *map(str, command)], check=True, stdout=subprocess.DEVNULL, cwd="/")


class Cluster:
    """`environment` is given to the server itself; `connections` is how many it takes at once."""

    def __init__(self, folder, environment=None, connections=100):
        self.folder = pathlib.Path(folder)
        self.environment = environment
        if ROOT:
            subprocess.run(["chown", "postgres:postgres", folder], check=True)
        with socket.socket() as s:
            s.bind(("127.0.0.1", 0))
            self.port = s.getsockname()[1]
        self.data = self.folder / "data"
        self.options = f"-p {self.port} -k {self.folder} -c listen_addresses=127.0.0.1 -c max_connections={connections}"
        as_server(PROGRAMS / "initdb", "--auth=trust", "--encoding=UTF8", "--locale=C", "--username=limpid", "-D", self.data)
        self.start()

    def start(self):
        begin = [PROGRAMS / "pg_ctl", "-D", self.data, "-l", self.folder / "log", "-w", "-o", self.options, "start"]
        as_server(*begin, environment=self.environment)

    def stop(self, how="fast"):
        as_server(PROGRAMS / "pg_ctl", "-D", self.data, "-m", how, "-w", "stop", environment=self.environment)

    def ask(self, sentences):
        command = ["psql", "-h", "127.0.0.1", "-p", str(self.port), "-U", "limpid", "-d", "postgres", "-qAtX", "-v", "ON_ERROR_STOP=1"]
        return subprocess.run(command, input=sentences, check=True, capture_output=True, text=True).stdout
