"""Mechanical changes of a program's text, each a bug such as people write.

They were fixed before the checker was asked about any of them:

* a comparison becomes its neighbour (`<` `<=`, `==` `!=`, `in` `not in`, `is` `is not`);
* a number becomes one more or one less; True and False change places;
* `and` and `or` change places; a `not` goes; `+` and `-` change places;
* a branch is never taken; the two values of a conditional expression change places; the filter of
  a comprehension goes;
* the winner's and the loser's way change places, the upper and the lower side, the top and the
  bottom; `min` and `max`, `any` and `all`;
* the first two arguments of a call change places, the two of a pair too;
* a statement that only does something (a call, `x += y`) goes, as does a `continue`.
"""

import ast
from collections.abc import Callable, Iterator
from dataclasses import dataclass

NEIGHBOURS: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq, ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
}  # fmt: skip
SWAPPED = {
    one: other
    for pair in (
        ("WINNER", "LOSER"), ("winner", "loser"), ("top", "bottom"), ("min", "max"), ("any", "all")
    )
    for one, other in (pair, pair[::-1])
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Change:
    """A change at one place: what is done, where it stands, and the text before and after.

    `at`, `which`: the place in the module, and of several changes there this one.
    """

    name: str
    line: int
    function: str
    before: str
    after: str
    at: int
    which: int

    def made(self, source: str) -> str:
        """The text of the module with this change."""
        tree = ast.parse(source)
        place = list(_places(tree))[self.at]
        place.put(_edits(place.node)[self.which][1])
        return ast.unparse(ast.fix_missing_locations(tree))


Edit = tuple[str, ast.AST]
"""The name of an operator, and what comes instead of the node."""


def changes(source: str) -> Iterator[Change]:
    """Every change that can be made to a module, in the order of its text."""
    for at, place in enumerate(_places(ast.parse(source))):
        before, line = ast.unparse(place.node), getattr(place.node, "lineno", 0)
        for which, (name, new) in enumerate(_edits(place.node)):
            after = ast.unparse(ast.fix_missing_locations(new))
            if after != before:
                yield Change(name, line, place.function, before, after, at, which)


@dataclass(frozen=True, slots=True)
class _Place:
    node: ast.AST
    put: Callable[[ast.AST], None]
    function: str


def _places(tree: ast.Module) -> Iterator[_Place]:
    """Nodes that can be changed: of functions, apart from annotations, documentation, refusals."""
    for top in tree.body:
        if isinstance(top, ast.FunctionDef | ast.ClassDef):
            yield from _inside(top, top.name)


def _inside(node: ast.AST, function: str) -> Iterator[_Place]:
    for name, value in ast.iter_fields(node):
        if name in ("annotation", "returns", "decorator_list", "bases"):
            continue
        listed = isinstance(value, list)
        for at, child in enumerate(value if listed else [value]):
            if not isinstance(child, ast.AST) or _left_alone(node, child):
                continue
            inner = f"{function}.{child.name}" if isinstance(child, ast.FunctionDef) else function
            if _edits(child):
                yield _Place(child, _putter(node, name, at if listed else None), inner)
            yield from _inside(child, inner)


def _putter(node: ast.AST, name: str, at: int | None) -> Callable[[ast.AST], None]:
    def put(new: ast.AST) -> None:
        if at is None:
            setattr(node, name, new)
        else:
            getattr(node, name)[at] = new

    return put


def _left_alone(parent: ast.AST, child: ast.AST) -> bool:
    """Refusals, when and with which words; documentation; parameters; the fields of a class."""
    if isinstance(child, ast.Raise | ast.JoinedStr | ast.arguments):
        return True
    if isinstance(child, ast.keyword) and child.arg == "strict":
        return True
    if isinstance(child, ast.If) and all(isinstance(one, ast.Raise) for one in child.body):
        return not child.orelse
    if isinstance(child, ast.Expr) and isinstance(child.value, ast.Constant):
        return True
    return isinstance(parent, ast.ClassDef) and isinstance(child, ast.AnnAssign | ast.Assign)


def _edits(node: ast.AST) -> list[Edit]:
    found: list[Edit] = []
    for kind, make in _MAKERS.items():
        if isinstance(node, kind):
            found += make(node)
    return found


def _compare(node: ast.Compare) -> list[Edit]:
    if type(node.ops[0]) not in NEIGHBOURS:
        return []
    ops = [NEIGHBOURS[type(node.ops[0])](), *node.ops[1:]]
    return [("comparison", ast.Compare(node.left, ops, node.comparators))]


def _constant(node: ast.Constant) -> list[Edit]:
    if isinstance(node.value, bool):
        return [("truth", ast.Constant(not node.value))]
    if isinstance(node.value, int):
        return [("number", ast.Constant(node.value + 1)), ("number", ast.Constant(node.value - 1))]
    return []


def _bool_op(node: ast.BoolOp) -> list[Edit]:
    other = ast.Or() if isinstance(node.op, ast.And) else ast.And()
    return [("and/or", ast.BoolOp(other, node.values))]


def _unary(node: ast.UnaryOp) -> list[Edit]:
    return [("not", node.operand)] if isinstance(node.op, ast.Not) else []


def _binary(node: ast.BinOp) -> list[Edit]:
    if not isinstance(node.op, ast.Add | ast.Sub):
        return []
    other = ast.Sub() if isinstance(node.op, ast.Add) else ast.Add()
    return [("plus/minus", ast.BinOp(node.left, other, node.right))]


def _if(node: ast.If) -> list[Edit]:
    return [("branch", ast.If(ast.Constant(value=False), node.body, node.orelse))]


def _if_exp(node: ast.IfExp) -> list[Edit]:
    return [("branches", ast.IfExp(node.test, node.orelse, node.body))]


def _comprehension(node: ast.comprehension) -> list[Edit]:
    if not node.ifs:
        return []
    return [("filter", ast.comprehension(node.target, node.iter, node.ifs[1:], node.is_async))]


def _attribute(node: ast.Attribute) -> list[Edit]:
    if node.attr not in SWAPPED:
        return []
    return [("way", ast.Attribute(node.value, SWAPPED[node.attr], node.ctx))]


def _name(node: ast.Name) -> list[Edit]:
    if node.id not in ("min", "max", "any", "all"):
        return []
    return [("least/most", ast.Name(SWAPPED[node.id], node.ctx))]


def _call(node: ast.Call) -> list[Edit]:
    if len(node.args) < 2 or any(isinstance(one, ast.Starred) for one in node.args[:2]):
        return []
    if isinstance(node.func, ast.Name) and node.func.id in ("isinstance", "min", "max"):
        return []
    return [("arguments", ast.Call(node.func, [*node.args[1::-1], *node.args[2:]], node.keywords))]


def _pair(node: ast.Tuple) -> list[Edit]:
    if len(node.elts) != 2 or not isinstance(node.ctx, ast.Load):
        return []
    return [("pair", ast.Tuple(node.elts[::-1], node.ctx))]


def _statement(node: ast.stmt) -> list[Edit]:
    return [("statement", ast.Pass())]


def _expression(node: ast.Expr) -> list[Edit]:
    return _statement(node) if isinstance(node.value, ast.Call) else []


_MAKERS: dict[type[ast.AST], Callable[..., list[Edit]]] = {
    ast.Compare: _compare,
    ast.Constant: _constant,
    ast.BoolOp: _bool_op,
    ast.UnaryOp: _unary,
    ast.BinOp: _binary,
    ast.If: _if,
    ast.IfExp: _if_exp,
    ast.comprehension: _comprehension,
    ast.Attribute: _attribute,
    ast.Name: _name,
    ast.Call: _call,
    ast.Tuple: _pair,
    ast.AugAssign: _statement,
    ast.Continue: _statement,
    ast.Expr: _expression,
}
