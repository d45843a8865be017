"""The command line. Every error is one plain text on stderr; exit 1: refused, 2: used wrongly.

What a command needs of the program is imported in it: `--help` and a wrong option answer at once.
"""

from __future__ import annotations

import signal
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import click

from .config import BadSetting, Config, config_from

FILE = click.Path(exists=True, dir_okay=False, path_type=Path)


class Plainly(click.Group):
    """Turns what the program refuses into one text without a traceback."""

    def invoke(self, ctx: click.Context) -> Any:
        from sqlalchemy.exc import SQLAlchemyError

        from .documents import DocumentError
        from .store.refusals import BadDocument, Refusal

        try:
            return super().invoke(ctx)
        except (BadDocument, DocumentError) as error:
            raise click.ClickException(by_line(error.errors)) from None
        except (Refusal, BadSetting) as error:
            raise click.ClickException(str(error)) from None
        except SQLAlchemyError as error:
            cause = getattr(error, "orig", None) or error
            raise click.ClickException(f"The database cannot be used: {str(cause).splitlines()[0]}") from None
        except OSError as error:
            raise click.ClickException(f"{error.filename or 'File'}: {error.strerror or error}") from None


def by_line(errors: dict[str, list[str]]) -> str:
    lines = [f"  {path}: {' '.join(texts)}" for path, texts in errors.items()]
    return "\n".join([f"{len(lines)} thing{'s' if len(lines) > 1 else ''} to put right:", *lines])


@contextmanager
def the_app() -> Iterator[Config]:
    from .app import create_app

    config = config_from()
    with create_app(config).app_context():
        yield config


def the_clock() -> tuple[Any, Callable[[int], bytes]]:
    from .api.services import services

    return services().now(), services().random


@click.group(cls=Plainly)
@click.version_option(package_name="oddleg")
def main() -> None:
    """Setting out and fitting cabinets in rooms that are not level.

    Settings come from the environment: ODDLEG_DATA, ODDLEG_DATABASE, ODDLEG_PORT, ODDLEG_ORIGIN, ODDLEG_PWA.
    """


@main.command()
@click.option("--host", default="127.0.0.1", show_default=True, help="Address to listen on; 0.0.0.0 for all.")
@click.option("--port", type=click.IntRange(1, 65535), help="Port; else ODDLEG_PORT, else 8675.")
@click.option("--certificate", type=FILE, help="TLS certificate, PEM.")
@click.option("--key", type=FILE, help="Private key of the certificate, PEM.")
def serve(host: str, port: int | None, certificate: Path | None, key: Path | None) -> None:
    """Serve phones and desk until stopped.

    Prints `ready ADDRESS`; while no one of the office has a device paired, that is a link that pairs one, once.
    Phones on site need --host 0.0.0.0, a certificate and ODDLEG_ORIGIN, the address that they reach this computer by.
    """
    from .app import create_app
    from .serving import PortTaken, serving

    if (certificate is None) != (key is None):
        raise click.UsageError("--certificate and --key go together.")
    config = config_from()
    config = config.at_port(port or config.port)
    if config.pwa_folder and not config.built_pwa:
        raise BadSetting(f"ODDLEG_PWA is '{config.pwa_folder}': no built phone app is there; it has an index.html")
    app = create_app(config)
    scheme = "https" if certificate else "http"
    try:
        with serving(app, host, config.port, certificate, key) as server:
            with app.app_context():
                path = first_link(config)
            signal.signal(signal.SIGTERM, signal.default_int_handler)
            click.echo(f"ready {config.origin or f'{scheme}://localhost:{config.port}'}{path}")
            for line in what_phones_need(host, certificate is not None, config):
                click.echo(line, err=True)
            try:
                server.serve()
            except KeyboardInterrupt:
                click.echo("stopping", err=True)
    except PortTaken as error:
        raise click.ClickException(str(error)) from None


def what_phones_need(host: str, with_tls: bool, config: Config) -> Iterator[str]:
    """Lines on what still keeps a phone from this server, and a printed code from leading back."""
    if config.built_pwa is None:
        yield "No built phone app is here, so browsers are shown nothing: npm run build in pwa/, or set ODDLEG_PWA."
    if host in ("127.0.0.1", "localhost", "::1"):
        yield "Only this computer can reach it. For phones: --host 0.0.0.0, with --certificate and --key."
    elif not with_tls:
        yield "Phones can reach it, but work offline only over https: give --certificate and --key."
    if config.origin is None:
        yield "ODDLEG_ORIGIN is not set: sheets print a mark to type in place of a code to scan."


def first_link(config: Config) -> str:
    """The path that pairs the first office device, or the front page's where one is paired."""
    from .store import access

    return "/" if access.office_is_paired() else link_for(config, None, "office")


def link_for(config: Config, name: str | None, role: str) -> str:
    """Path of a new one-time link for the person of this name; no name: the first of the office. Made if not there."""
    from .store import access

    now, random = the_clock()
    known = [one for one in access.people() if (one.name == name if name else one.role == role)]
    if len(known) > 1 and name:
        raise click.ClickException(f"There are {len(known)} people called {name!r}.")
    if name and known and known[0].role != role:
        raise click.ClickException(f"{name!r} is here already, as {known[0].role}.")
    person = known[0] if known else access.add_person(name or "Office", role, now, random)
    return f"/#/join/{access.add_code(person.id, now, random, config.code_minutes).code}"


@main.command()
@click.option("--person", help="Name; made if not there. Without it: the first of the office.")
@click.option("--role", type=click.Choice(["office", "fitter"]), default="office", show_default=True)
def link(person: str | None, role: str) -> None:
    """Print a new one-time link that pairs a device of a person. Opening it spends nothing."""
    if role == "fitter" and not person:
        raise click.UsageError("Say who: --person NAME.")
    with the_app() as config:
        path = link_for(config, person, role)
        click.echo(f"{config.origin or f'http://localhost:{config.port}'}{path}")


@main.command("jobs")
def list_jobs() -> None:
    """List the jobs: id, revision, title."""
    from .store import access, jobs

    with the_app():
        for one in jobs.list_jobs(access.console()):
            click.echo(f"{one.id}\t{one.revision}\t{one.title}")


@main.command("import")
@click.argument("file", type=FILE)
@click.option("--as-copy", is_flag=True, help="Bring a known job in once more, with an id of its own.")
@click.option("--replace", type=click.IntRange(1), metavar="REVISION", help="Replace the job at this revision.")
def import_job(file: Path, as_copy: bool, replace: int | None) -> None:
    """Bring a job file in."""
    from .store import access, jobs

    if as_copy and replace:
        raise click.UsageError("Either --as-copy or --replace.")
    with the_app():
        now, random = the_clock()
        caller, job = access.console(), jobs.read_document(file.read_bytes())
        if replace:
            made = jobs.replace_job(caller, job, replace, now)
        else:
            made = jobs.create_job(caller, job, now, random, as_copy)
        click.echo(f"{made.job.id} revision {made.revision}")


@main.command()
@click.argument("job")
@click.option("--out", type=click.Path(dir_okay=False, writable=True, path_type=Path), help="File; else stdout.")
def export(job: str, out: Path | None) -> None:
    """Write a job as a job file."""
    from .store import access, jobs

    with the_app():
        text, _ = jobs.document_of(access.console(), job)
    if out is None:
        click.echo(text.encode(), nl=False)
    else:
        out.write_bytes(text.encode())


@main.command()
@click.argument("job")
@click.option(
    "--out", type=click.Path(file_okay=False, path_type=Path), required=True, help="Folder; made if not there."
)
@click.option(
    "--paper",
    type=click.Choice(("a4", "a3", "both")),
    default="a4",
    show_default=True,
    help="Paper for what is printed at full size: rods, templates, sticks.",
)
def sheets(job: str, out: Path, paper: str) -> None:
    """Write the sheets of a job as PDF, those at full size on the paper that is at hand."""
    from .api.sheets import printed
    from .sheets import on_paper
    from .store import access
    from .store.gather import gather

    with the_app():
        gathered = gather(access.console(), job)
        out.mkdir(parents=True, exist_ok=True)
        for name, body in printed(gathered, lambda name: paper == "both" or on_paper(name, paper)):
            (out / f"{name}.pdf").write_bytes(body)
            click.echo(out / f"{name}.pdf")


@main.group()
def entries() -> None:
    """Site entries."""


@entries.command()
@click.argument("file", type=FILE)
@click.option("--person", metavar="ID", help="Whose entries they are, if their phone never came here.")
def load(file: Path, person: str | None) -> None:
    """Take in entries that a phone handed over as a file, in the form of a push."""
    from .api.entries import batches_in
    from .store import access
    from .store.push import push

    with the_app() as config:
        now, random = the_clock()
        results = []
        for batch in batches_in(file.read_bytes()):
            caller = access.handing_over(batch.writer, person, now, random)
            results += push(caller, batch, now, random, config.greatest_from_revoked_bytes).results
    counts = Counter(one.status for one in results)
    click.echo(", ".join(f"{count} {status}" for status, count in sorted(counts.items())) or "no entries in it")
    for one in results:
        if one.problem:
            click.echo(f"{one.uid} {one.status}: {one.problem}", err=True)


@main.group(invoke_without_command=True)
@click.pass_context
def people(ctx: click.Context) -> None:
    """List people; or add, assign, erase."""
    from .store import access

    if ctx.invoked_subcommand is None:
        with the_app():
            for one in access.people():
                click.echo(f"{one.id}\t{one.role}\t{one.name}")


@people.command()
@click.argument("name")
@click.option("--role", type=click.Choice(["office", "fitter"]), required=True)
def add(name: str, role: str) -> None:
    """Add a person; prints the id."""
    from .store import access

    with the_app():
        click.echo(access.add_person(name, role, *the_clock()).id)


@people.command()
@click.argument("job")
@click.argument("person")
def assign(job: str, person: str) -> None:
    """Let a fitter see a job."""
    from .store import access

    with the_app():
        access.assign(access.console(), job, person, the_clock()[0])


@people.command()
@click.argument("person")
@click.confirmation_option(prompt="Their entries lose their content for good. Go on?")
def erase(person: str) -> None:
    """Erase what a person entered; keeps hashes, so that phones can still check their copies."""
    from .store import access
    from .store.erasure import erase_person

    with the_app():
        click.echo(f"{erase_person(access.console(), person, the_clock()[0])} entries erased")


KINDS = click.Choice(["runner", "hinge", "plate", "leg", "bracket", "connector", "pin", "pull_out"])


@main.group("charts")
def fitting_charts() -> None:
    """Fitting charts: what hardware asks of the boards that it is fixed to."""


def read_chart(file: Path, kind: str | None) -> Any:
    """The chart in a file. What is wrong is printed by line and column, and ends the command."""
    from .charts import read_csv
    from .charts.chart_rows import CONTROLS
    from .job import HardwareKind

    read = read_csv(file.read_bytes(), HardwareKind(kind) if kind else None)
    for row in read.rows:
        click.echo(f"{row.id}\t{row.name}")
    for one in read.problems:
        place = ", ".join(part for part in (f"line {one.line}", one.row_id[:64], one.column) if part)
        click.echo(CONTROLS.sub("?", f"{place}: {one.wrong}"), err=True)
    if read.problems:
        many = f"{len(read.problems)} thing{'' if len(read.problems) == 1 else 's'}"
        raise click.ClickException(f"{rows_in_words(read)} right, {many} to put right.")
    return read


def rows_in_words(read: Any) -> str:
    return f"{len(read.rows)} row{'' if len(read.rows) == 1 else 's'}"


@fitting_charts.command()
@click.argument("file", type=FILE)
@click.option("--kind", type=KINDS, help="Of every row, where the file has no column `kind`.")
def check(file: Path, kind: str | None) -> None:
    """Look a chart through: prints the rows that are right, and what is wrong by line and column."""
    click.echo(f"{rows_in_words(read_chart(file, kind))} right.")


@fitting_charts.command("add")
@click.argument("file", type=FILE)
@click.option("--kind", type=KINDS, help="Of every row, where the file has no column `kind`.")
def add_chart(file: Path, kind: str | None) -> None:
    """Save the rows of a chart as the workshop's own: all of them or, where one is wrong, none."""
    from .store import access
    from .store.charts import save_rows

    with the_app():
        read = read_chart(file, kind)
        saved = save_rows(access.console(), read.kind, read.rows, the_clock()[0])
    as_shipped = sum(not one.ours for one in saved)
    left = f" {as_shipped} of them as the program brings them, so they stay its own." if as_shipped else ""
    click.echo(f"{rows_in_words(read)} saved.{left}")


@fitting_charts.command("export")
@click.argument("kind", type=KINDS)
@click.option("--out", type=click.Path(dir_okay=False, writable=True, path_type=Path), help="File; else stdout.")
def export_chart(kind: str, out: Path | None) -> None:
    """Write the rows of a kind that jobs can name as a chart."""
    from .charts import write_csv
    from .job import HardwareKind
    from .store.charts import listed_rows

    with the_app():
        text = write_csv(HardwareKind(kind), [one.row for one in listed_rows() if one.kind == kind]).encode()
    if out is None:
        click.echo(text, nl=False)
    else:
        out.write_bytes(text)


@fitting_charts.command("columns")
@click.argument("kind", type=KINDS, required=False)
def list_columns(kind: str | None) -> None:
    """Say what columns a chart has and what is allowed in them; all kinds, or one."""
    from .charts.columns import FORMAT, described
    from .job import HardwareKind

    kinds = [HardwareKind(kind)] if kind else list(HardwareKind)
    click.echo("\n\n".join([FORMAT, *map(described, kinds)]))
