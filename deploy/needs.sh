# Sourced by deploy/start and tests/run: says, or installs, what the machine lacks.

stop() {
    printf '%s\n' "$*" >&2
    exit 1
}

need_dotnet() {
    if ! command -v dotnet >/dev/null; then
        stop "The .NET 10 SDK is not installed; install it from https://dotnet.microsoft.com/download/dotnet/10.0 and start again, or use Docker Compose (see README.md)."
    fi
    if ! (cd "$1" && dotnet --version) >/dev/null 2>&1; then
        stop "A .NET SDK of version 10 is needed, this machine has: $(dotnet --list-sdks | cut -d' ' -f1 | paste -sd' ' -). Install it from https://dotnet.microsoft.com/download/dotnet/10.0 and start again."
    fi
}

as_root() {
    if [ "$(id -u)" = 0 ]; then
        "$@"
    elif command -v sudo >/dev/null; then
        sudo "$@"
    else
        stop "Installing needs root: run as root: $*"
    fi
}

apt_updated=
# apt_install PACKAGE… : from the distribution, asking nothing.
apt_install() {
    if ! command -v apt-get >/dev/null; then
        stop "This is missing and must be installed by hand: $*"
    fi
    echo "Installing $* …" >&2
    if [ -z "$apt_updated" ]; then
        as_root env DEBIAN_FRONTEND=noninteractive apt-get -q=2 update
        apt_updated=yes
    fi
    as_root env DEBIAN_FRONTEND=noninteractive apt-get -q=2 install -y --no-install-recommends "$@" </dev/null >&2
}

have_postgres() {
    local folder
    for folder in /usr/lib/postgresql/*/bin /usr/lib64/pgsql/bin /usr/pgsql-*/bin /opt/homebrew/opt/postgresql*/bin /usr/local/opt/postgresql*/bin $(printf %s "$PATH" | tr ':' ' '); do
        if [ -x "$folder/initdb" ] && [ -x "$folder/pg_ctl" ] && [ -x "$folder/postgres" ]; then return 0; fi
    done
    return 1
}

need_postgres() {
    if have_postgres; then return; fi
    if command -v apt-get >/dev/null; then
        # The package would also make and start a server of its own, which nothing here uses.
        apt_install postgresql-common
        if [ ! -d /etc/postgresql ] || [ -z "$(ls -A /etc/postgresql)" ]; then
            as_root sed -i 's/^#\?create_main_cluster *=.*/create_main_cluster = false/' /etc/postgresql-common/createcluster.conf
        fi
        apt_install postgresql
    else
        stop "PostgreSQL's server programs are missing; install them (Fedora: sudo dnf install postgresql-server postgresql-contrib; macOS: brew install postgresql@17), set ConnectionStrings__Shop to a PostgreSQL server that already runs, or use Docker Compose (see README.md)."
    fi
    have_postgres || stop "PostgreSQL was installed, but initdb, pg_ctl and postgres are still not found."
}

# need PROGRAM PACKAGE
need() {
    command -v "$1" >/dev/null || apt_install "$2"
}

# The tests hold the signal analysis against SciPy, run by Debian's own Python.
need_python_scipy() {
    if /usr/bin/python3 -c "import scipy" 2>/dev/null; then return; fi
    apt_install python3-scipy
    /usr/bin/python3 -c "import scipy" || stop "SciPy was installed, but /usr/bin/python3 still cannot import it."
}
