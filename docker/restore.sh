#!/bin/sh
# Put a back-up in the place of what the database holds: docker compose run --rm restore gaugerake-….dump
#
# All of it or nothing: a back-up that cannot be read to its end changes nothing. Tables that it does not have go, or
# the next start could not bring an older back-up up to date.
set -eu
umask 077
folder=${BACKUPS:-/backups}
file=$folder/$(basename -- "${1:-}")
if [ $# -ne 1 ] || [ ! -f "$file" ]; then
    echo "usage: docker compose run --rm restore FILE, where FILE is one of:" >&2
    find "$folder" -maxdepth 1 -name 'gaugerake-*.dump' | sort | sed 's|.*/||' >&2
    exit 2
fi
PGPASSWORD=$(cat "${PGPASSWORD_FILE:-/run/secrets/database_password}")
export PGPASSWORD

statements=$(mktemp "$folder/restoring.XXXXXX")
trap 'rm -f "$statements"' EXIT
cat >"$statements" <<'SQL'
DO $$ DECLARE name text; BEGIN
    FOR name IN SELECT tablename FROM pg_tables WHERE schemaname = 'public' LOOP
        EXECUTE format('DROP TABLE public.%I CASCADE', name);
    END LOOP;
END $$;
SQL
pg_restore --no-owner --file=- "$file" >>"$statements"
psql --quiet --no-psqlrc --single-transaction --set=ON_ERROR_STOP=1 --file="$statements" >/dev/null
echo "restored from $file"
