"""Local times of a household as instants, with zoneinfo and nothing else.

An instant is a whole number of microseconds since 1970-01-01T00:00Z. Rules of the project:
a departure in the gap of a clock change is due at the instant of the gap, an ambiguous departure is the first
occurrence; a return in the gap is shifted forward, an ambiguous return is the second occurrence.
"""
from datetime import datetime, timedelta, timezone
from zoneinfo import ZoneInfo

SECOND = 1_000_000
MINUTE = 60 * SECOND
HOUR = 3600 * SECOND
DAY = 24 * HOUR
_EPOCH = datetime(1970, 1, 1, tzinfo=timezone.utc)
_MICROSECOND = timedelta(microseconds=1)


class RequestError(ValueError):
    """The request contradicts itself or uses something that this reference does not know."""


def hours(microseconds):
    return microseconds / HOUR


def to_instant(aware):
    return (aware.astimezone(timezone.utc) - _EPOCH) // _MICROSECOND


def to_local(instant, zone):
    """The wall clock at an instant, without offset."""
    return (_EPOCH + timedelta(microseconds=instant)).astimezone(zone).replace(tzinfo=None, fold=0)


def offset_at(instant, zone):
    return (_EPOCH + timedelta(microseconds=instant)).astimezone(zone).utcoffset()


def readings(local, zone):
    """(first, second) instants of a wall-clock time: equal if it exists once. In a gap: (shifted forward, shifted back)."""
    first = to_instant(local.replace(tzinfo=zone, fold=0))
    second = to_instant(local.replace(tzinfo=zone, fold=1))
    return first, second


def is_skipped(local, zone):
    first, _ = readings(local, zone)
    return to_local(first, zone) != local


def is_ambiguous(local, zone):
    first, second = readings(local, zone)
    return first != second and not is_skipped(local, zone)


def change_between(low, high, zone):
    """The instant in (low, high] at which the offset changes; there must be exactly one change."""
    before = offset_at(low, zone)
    while high - low > SECOND:
        middle = (low + high) // 2 // SECOND * SECOND
        if middle <= low:
            break
        if offset_at(middle, zone) == before:
            low = middle
        else:
            high = middle
    return high


def changes(start, end, zone):
    """All clock changes in (start, end], found by looking every six hours."""
    found, at = [], start
    while at < end:
        after = min(at + 6 * HOUR, end)
        if offset_at(at, zone) != offset_at(after, zone):
            found.append(change_between(at, after, zone))
        at = after
    return found


def departure_instant(local, zone, mutant=""):
    first, second = readings(local, zone)
    if is_skipped(local, zone):
        return first if mutant == "gapDepartureShifted" else change_between(second - 1, first, zone)
    return second if mutant == "ambiguousDepartureSecond" else first


def return_instant(local, zone, mutant=""):
    first, second = readings(local, zone)
    if is_skipped(local, zone):
        return first
    return first if mutant == "ambiguousReturnFirst" else second


def unique_instant(local, zone):
    first, second = readings(local, zone)
    if first != second:
        raise RequestError(f"{local} does not exist exactly once in {zone.key}: state the offset")
    return first


def read_time(text, zone, resolve=unique_instant):
    """RFC 3339 with an offset, or a local time that `resolve` turns into an instant."""
    stamp = datetime.fromisoformat(text.replace("Z", "+00:00"))
    if stamp.tzinfo is None:
        return resolve(stamp, zone)
    instant = to_instant(stamp)
    if stamp.utcoffset() != timedelta(0) or not text.endswith("Z"):
        if offset_at(instant, zone) != stamp.utcoffset():
            raise RequestError(f"{text}: the offset contradicts {zone.key}")
    return instant


def zone_of(name):
    return ZoneInfo(name)


def with_offset(instant, zone):
    """An instant as RFC 3339 with the zone's offset."""
    return (_EPOCH + timedelta(microseconds=instant)).astimezone(zone).isoformat()
