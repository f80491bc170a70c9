"""Compares times that a test wrote with those of SciPy's csgraph, for every pair of the sample.

    compare_with_scipy.py FILE

FILE holds whole numbers: nodes, arcs, sources, targets; an arc is from, to, cost; then the source
nodes, the target nodes, and per source the time to each target, -1 where there is no way. Ends with
1 where a time differs, and shows the first ones.
"""
import sys

import numpy
from scipy.sparse import csr_matrix
from scipy.sparse.csgraph import dijkstra

SHOWN = 10


def least_of_repeated(arcs):
    """A sparse matrix adds repeated entries up; a road network means the cheapest of them."""
    arcs = arcs[numpy.lexsort((arcs[:, 2], arcs[:, 1], arcs[:, 0]))]
    first = numpy.ones(len(arcs), dtype=bool)
    first[1:] = (arcs[1:, :2] != arcs[:-1, :2]).any(axis=1)
    return arcs[first]


def read(path):
    with open(path, encoding="ascii") as file:
        numbers = numpy.array(file.read().split(), dtype=numpy.int64)
    nodes, arc_count, source_count, target_count = numbers[:4]
    cuts = numpy.cumsum([4, 3 * arc_count, source_count, target_count])
    _, arcs, sources, targets, times = numpy.split(numbers, cuts)
    return (nodes, least_of_repeated(arcs.reshape(-1, 3)), sources, targets,
            times.reshape(source_count, target_count))


def scipy_times(nodes, arcs, sources, targets):
    graph = csr_matrix((arcs[:, 2].astype(float), (arcs[:, 0], arcs[:, 1])), shape=(nodes, nodes))
    times = numpy.array([dijkstra(graph, indices=source)[targets] for source in sources])
    return numpy.where(numpy.isinf(times), -1, times).astype(numpy.int64)


def main():
    nodes, arcs, sources, targets, ours = read(sys.argv[1])
    theirs = scipy_times(nodes, arcs, sources, targets)
    differing = numpy.argwhere(ours != theirs)
    print(f"{theirs.size} pairs, {(theirs >= 0).sum()} with a way, {len(differing)} differ")
    for row, column in differing[:SHOWN]:
        print(f"from {sources[row]} to {targets[column]}: {ours[row, column]}, "
              f"SciPy {theirs[row, column]}")
    return 0 if len(differing) == 0 else 1


sys.exit(main())
