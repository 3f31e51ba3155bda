"""Remove, then merge: what is inherited, what is replaced, and where everything was written."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from firstfill.specs.merge import derive, merged
from firstfill.specs.nodes import Items, Mapping, Node, Text
from firstfill.specs.reading import read_text
from firstfill.specs.report import Report


def read(text: str, file: str = "base.yaml") -> Mapping:
    report = Report()
    top = read_text(text, file, report)
    assert top is not None
    assert not report
    return top


def spelt(node: Node) -> object:
    if isinstance(node, Text):
        return (str(node), node.place)
    if isinstance(node, Mapping):
        return {key: (node.keys_at[key], spelt(below)) for key, below in node.items()}
    return [spelt(below) for below in node]


def plain(node: Node) -> object:
    if isinstance(node, Text):
        return str(node)
    if isinstance(node, Mapping):
        return {key: plain(below) for key, below in node.items()}
    return [plain(below) for below in node]


def paths(node: Mapping, above: str = "") -> list[str]:
    found = []
    for key, below in node.items():
        found.append(above + key)
        if isinstance(below, Mapping):
            found += paths(below, f"{above}{key}.")
    return found


KEY = st.sampled_from("abcd")
TREE = st.recursive(
    st.sampled_from(["1", "2", "3"]),
    lambda below: st.lists(below, max_size=2) | st.dictionaries(KEY, below, max_size=3),
    max_leaves=10,
)
TOP = st.dictionaries(KEY, TREE, max_size=4)


def noded(tree: object, file: str, counter: list[int]) -> Node:
    """The nodes of a tree, each with a place of its own."""
    from firstfill.errors import Location

    counter[0] += 1
    at = Location(file, counter[0], 1)
    if isinstance(tree, str):
        return Text(tree, at)
    if isinstance(tree, list):
        return Items(at, [noded(below, file, counter) for below in tree])
    assert isinstance(tree, dict)
    made = Mapping(at)
    for key, below in tree.items():
        value = noded(below, file, counter)
        made.put(key, Location(file, counter[0], 2), value)
    return made


def top_of(tree: object, file: str) -> Mapping:
    made = noded(tree, file, [0])
    assert isinstance(made, Mapping)
    return made


@given(TOP, TOP)
def test_merging_takes_each_key_from_who_wrote_it_last(
    base_tree: dict[str, object], own_tree: dict[str, object]
) -> None:
    def expected(base: object, own: object) -> object:
        if isinstance(base, dict) and isinstance(own, dict):
            keys = [*base, *(key for key in own if key not in base)]
            return {
                key: expected(base[key], own[key]) if key in base and key in own else (base | own)[key] for key in keys
            }
        return own

    base, own = top_of(base_tree, "base.yaml"), top_of(own_tree, "own.yaml")
    before = spelt(base), spelt(own)
    result = merged(base, own)
    assert plain(result) == expected(base_tree, own_tree)
    assert (spelt(base), spelt(own)) == before


@given(TOP, TOP)
def test_what_is_merged_shares_no_mapping_with_its_parent(
    base_tree: dict[str, object], own_tree: dict[str, object]
) -> None:
    """A key taken off a derived set must never be missing in another one with the same parent."""

    def mappings(node: Node) -> set[int]:
        below = list(node.values()) if isinstance(node, Mapping) else list(node) if isinstance(node, Items) else []
        own = {id(node)} if isinstance(node, Mapping) else set()
        return own.union(*(mappings(child) for child in below))

    base, own = top_of(base_tree, "base.yaml"), top_of(own_tree, "own.yaml")
    assert not mappings(merged(base, own)) & mappings(base)


@given(TOP)
def test_merging_with_nothing_changes_nothing(tree: dict[str, object]) -> None:
    top, nothing = top_of(tree, "base.yaml"), top_of({}, "own.yaml")
    assert spelt(merged(top, nothing)) == spelt(top)
    assert spelt(merged(nothing, top)) == spelt(top)
    assert spelt(merged(top, top)) == spelt(top)


@given(TOP, TOP)
def test_no_place_is_made_by_merging(base_tree: dict[str, object], own_tree: dict[str, object]) -> None:
    def places(node: Node) -> set[object]:
        if isinstance(node, Text):
            return {node.place}
        if isinstance(node, Mapping):
            return {node.place, *node.keys_at.values()}.union(*(places(below) for below in node.values()))
        return {node.place}.union(*(places(below) for below in node))

    base, own = top_of(base_tree, "base.yaml"), top_of(own_tree, "own.yaml")
    assert places(merged(base, own)) <= places(base) | places(own)


@given(TOP, TOP, st.data())
def test_what_is_removed_is_gone_unless_written_again(
    base_tree: dict[str, object], own_tree: dict[str, object], data: st.DataObject
) -> None:
    base, own = top_of(base_tree, "base.yaml"), top_of(own_tree, "own.yaml")
    known = paths(base)
    if not known:
        return
    path = data.draw(st.sampled_from(known))
    report = Report()
    without = Items(own.place, [Text(path, own.place)])
    result = derive(base, own, without, report, base_name="base.yaml")
    assert not report
    kept = set(paths(result))
    assert (path in kept) == (path in paths(own))
    inside = {other for other in known if other == path or other.startswith(f"{path}.")}
    untouched = {other for other in known if other not in inside} - set(paths(own))
    replaced = {other for other in untouched if not _above_is_replaced(other, own)}
    assert replaced <= kept


def _above_is_replaced(path: str, own: Mapping) -> bool:
    """Whether the deriving file wrote something that is no mapping on the way to ``path``."""
    node: Node = own
    for step in path.split("."):
        if not isinstance(node, Mapping):
            return True
        if step not in node:
            return False
        node = node[step]
    return False


def test_a_list_is_replaced_whole() -> None:
    base = read("stages: [one, two]\nkept: yes\n")
    own = read("stages: [three]\n", "own.yaml")
    assert plain(merged(base, own)) == {"stages": ["three"], "kept": "yes"}


def test_a_merged_mapping_stands_where_the_deriving_file_wrote_it() -> None:
    base = read("tank: {low: 1, full: 2}\npump: {size: 3}\n")
    own = read("tank: {full: 4}\n", "own.yaml")
    result = merged(base, own)
    tank, pump = result["tank"], result["pump"]
    assert isinstance(tank, Mapping)
    assert isinstance(pump, Mapping)
    assert (tank.place.file, pump.place.file, result.place.file) == ("own.yaml", "base.yaml", "own.yaml")
    assert [str(tank.keys_at[key]) for key in ("low", "full")] == ["base.yaml:1:8", "own.yaml:1:8"]
    assert tank.home.file == "own.yaml"
    differing = merged(base, own, own_home=False)["tank"]
    assert isinstance(differing, Mapping)
    assert differing.home.file == "base.yaml"
