# SPDX-License-Identifier: GPL-3.0-or-later
"""How channels of one node fall into regions (shared/facts/population.md 4.1 to 4.4); part of
figures_model.py. Capacities are {channel number: MiB}; a region is (MiB, ways)."""


def ways_of(ways, n):
    return max(w for w in ways if w <= n)


def regions_layered(caps):
    left = dict(caps)
    while any(left.values()):
        live = [c for c in left if left[c] > 0]
        step = min(left[c] for c in live)
        yield step * len(live), len(live)
        for c in live:
            left[c] -= step


def regions_ways(caps, ways, controller):
    left = dict(caps)
    while any(left.values()):
        live = [c for c in left if left[c] > 0]
        picked = []
        while len(picked) < ways_of(ways, len(live)):
            rest = [c for c in live if c not in picked]
            picked.append(min(rest, key=lambda c: (
                -left[c], len([p for p in picked if controller[p] == controller[c]]), c)))
        step = min(left[c] for c in picked)
        yield step * len(picked), len(picked)
        for c in picked:
            left[c] -= step


def regions_equal_groups(caps, ways):
    for size in sorted({c for c in caps.values() if c}, reverse=True):
        n = len([c for c in caps.values() if c == size])
        while n:
            w = ways_of(ways, n)
            yield size * w, w
            n -= w


def narrowest_matched(ways, caps, controller):
    """The least ways of any region where a set has as many channels of each of its controllers: every
    set there can be is tried, the widest first, then the one that carries most (population.md 4.1,
    K1, K6). None: nothing to read."""
    left, least = dict(caps), None
    while any(left.values()):
        live = sorted((c for c in left if left[c]), key=lambda c: (-left[c], c))
        homes = {}
        for c in live:
            homes.setdefault(controller[c], []).append(c)
        for w in sorted((w for w in {*ways, 1} if w <= len(live)), reverse=True):
            sets = []
            for n in range(w, 0, -1):
                if w % n == 0:
                    deep = [chans[:w // n] for chans in homes.values() if len(chans) >= w // n]
                    deep.sort(key=lambda chans: (-left[chans[-1]], min(c for c in left if controller[c] == controller[chans[0]])))
                    if len(deep) >= n:
                        sets.append([c for chans in deep[:n] for c in chans])
            if sets:
                break
        step = min(left[c] for c in sets[0])
        for c in sets[0]:
            left[c] -= step
        least = min(least or w, w)
    return least
