"""The client that a rate limit counts: an IPv4 address, or an IPv6 network of 64 bits.

A customer of IPv6 is given at least a /64 (RFC 6177, RIPE-690) and can ask from each of its 2^64 addresses, so
counting whole addresses would count nothing. docker/nginx.conf counts its connections alike.
"""

from __future__ import annotations

from ipaddress import AddressValueError, IPv6Address, IPv6Network

COUNTED_BITS = 64


def counted_as(address: str | None) -> str:
    """The name under which an address is counted: the /64 of an IPv6 address, anything else as it is.

    >>> counted_as("2001:db8:0:7:1::1"), counted_as("192.0.2.7"), counted_as("::ffff:192.0.2.7")
    ('2001:db8:0:7::/64', '192.0.2.7', '192.0.2.7')
    """
    if not address:
        return "unknown"
    if ":" not in address:
        return address
    try:
        whole = IPv6Address(address)
    except AddressValueError:
        return address
    if whole.ipv4_mapped is not None:
        return str(whole.ipv4_mapped)
    return str(IPv6Network((int(whole), COUNTED_BITS), strict=False))
