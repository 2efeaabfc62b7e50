#!/usr/bin/env bash
# A throwaway PostgreSQL server on a socket of its own; no port, no password.
# Usage: url=$(.ci/postgres.sh start FOLDER)   FOLDER is made, and must not exist
#        .ci/postgres.sh stop FOLDER
# Its address goes into FISHMEASURE_TEST_POSTGRES_URL for the tests. Debian's
# postgresql is installed if there is none and we are root.
set -euo pipefail

action=${1:?start or stop}
folder=${2:?a folder}

server_bin() {
  ls -d /usr/lib/postgresql/*/bin 2>/dev/null | sort -V | tail -1
}

# The server refuses to run as root.
as_server() {
  if [ "$(id -u)" = 0 ]; then
    runuser -u postgres -- "$@"
  else
    "$@"
  fi
}

case $action in
  start)
    if [ -z "$(server_bin)" ]; then
      apt-get update -qq >&2
      DEBIAN_FRONTEND=noninteractive apt-get install -y -qq \
        --no-install-recommends postgresql >&2
    fi
    bin=$(server_bin)
    mkdir "$folder"
    if [ "$(id -u)" = 0 ]; then chown postgres "$folder"; fi
    cd "$folder"
    as_server "$bin/initdb" --pgdata="$folder/data" --username=postgres \
      --auth=trust --encoding=UTF8 --locale=C.UTF-8 >/dev/null
    # fsync off: the server itself is never killed in a test.
    as_server "$bin/pg_ctl" --pgdata="$folder/data" --log="$folder/log" --wait --silent \
      --options="-c listen_addresses= -c unix_socket_directories=$folder -c fsync=off" \
      start >/dev/null
    echo "postgresql://postgres@/postgres?host=$folder"
    ;;
  stop)
    as_server "$(server_bin)/pg_ctl" --pgdata="$folder/data" --mode=immediate --silent stop
    rm -rf "$folder"
    ;;
  *)
    echo "start or stop, not $action" >&2
    exit 2
    ;;
esac
