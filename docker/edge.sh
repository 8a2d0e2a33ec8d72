#!/bin/sh
# Start nginx with the settings that differ from one deployment to the next: edge.sh [nginx arguments]
#
# GAUGERAKE_TRUSTED_HOSTS  names by which people reach the service, with commas; a leading dot takes the names below.
#                          Plain HTTP sends people on to these names and to no other.
# GAUGERAKE_BALANCERS      addresses or networks of load balancers in front, with commas; empty for none.
#                          From these alone the client's address is taken from X-Forwarded-For.
#
# nginx reads no environment, so each setting becomes a file that nginx.conf includes.
# A setting that cannot be read ends the start with code 2: nginx never runs with half of what was asked.
set -eu
folder=${EDGE_SETTINGS:-/tmp/settings}
IFS='
'

fail() {
    echo "$1" >&2
    exit 2
}

# each part of a list with commas, one a line
parts() {
    printf '%s' "$1" | tr ',' '\n' | sed 's/^[[:space:]]*//; s/[[:space:]]*$//; /^$/d'
}

write_hosts() {
    names=$(parts "${GAUGERAKE_TRUSTED_HOSTS:-}" | tr '[:upper:]' '[:lower:]')
    [ -n "$names" ] || fail "GAUGERAKE_TRUSTED_HOSTS is empty: name the hosts by which people reach the service"
    for name in $names; do
        printf '%s' "$name" | grep -Eqx '\.?([a-z0-9_-]+\.)*[a-z0-9_-]+|\[[0-9a-f:.]+\]' ||
            fail "GAUGERAKE_TRUSTED_HOSTS: $name is not a host; write names such as floors.example, without a port"
        printf '%s 1;\n' "$name"
    done
}

write_balancers() {
    addresses=$(parts "${GAUGERAKE_BALANCERS:-}")
    [ -n "$addresses" ] || return 0
    printf 'real_ip_header X-Forwarded-For;\nreal_ip_recursive on;\n'
    for address in $addresses; do
        printf '%s' "$address" | grep -Eqx '[0-9a-fA-F:.]+(/[1-9][0-9]{0,2})?' ||
            fail "GAUGERAKE_BALANCERS: $address is not an address or network; write such as 10.0.0.7 or 10.0.0.0/24"
        printf 'set_real_ip_from %s;\n' "$address"
    done
}

# a kernel without IPv6 refuses to listen on it
write_listen() {
    [ ! -e /proc/net/if_inet6 ] || printf 'listen [::]:%s;\n' "$1"
}

mkdir -p "$folder"
write_hosts >"$folder/hosts"
write_balancers >"$folder/balancers"
write_listen "8080 default_server" >"$folder/listen_plain"
write_listen "8443 ssl default_server" >"$folder/listen_tls"
exec nginx "$@"
