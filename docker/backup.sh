#!/bin/sh
# Back up the database into /backups, and keep the newest: docker compose run --rm backup
#
# BACKUPS_KEPT  how many are kept, 14 unless given
# A back-up has its name only once it is whole and has been read again.
set -eu
umask 077
folder=${BACKUPS:-/backups}
kept=${BACKUPS_KEPT:-14}
case $kept in '' | 0 | *[!0-9]*) echo "BACKUPS_KEPT is how many are kept, 1 or more; it is '$kept'" >&2; exit 2 ;; esac
PGPASSWORD=$(cat "${PGPASSWORD_FILE:-/run/secrets/database_password}")
export PGPASSWORD

name=gaugerake-$(date -u +%Y%m%dT%H%M%SZ).dump
trap 'rm -f "$folder/$name.part"' EXIT
pg_dump --format=custom --no-owner --file="$folder/$name.part"
pg_restore --list "$folder/$name.part" >/dev/null
mv "$folder/$name.part" "$folder/$name"
echo "$folder/$name"

find "$folder" -maxdepth 1 -name 'gaugerake-*.dump' | sort -r | tail -n "+$((kept + 1))" | while read -r old; do
    rm -- "$old"
done
