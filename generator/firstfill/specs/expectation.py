"""What a model expects at a key: for messages that name the nearest key or an example of the missing value."""

from __future__ import annotations

import types
from collections.abc import Iterator
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel

from firstfill.specs.models.quantity_fields import Reader
from firstfill.specs.report import listed

__all__ = ["expected_at", "keys_of", "models_at"]


def keys_of(model: type[BaseModel]) -> dict[str, Any]:
    """Return the keys of a model as written in the YAML, each with its annotation."""
    found: dict[str, Any] = {}
    for name, info in model.model_fields.items():
        annotation = Annotated[info.annotation, *info.metadata] if info.metadata else info.annotation
        found[info.alias or name] = annotation
    return found


def _bare(annotation: Any) -> list[Any]:
    """Return what an annotation may be, without ``None``, aliases and the like."""
    origin = get_origin(annotation)
    if origin is Annotated:
        inner, *metadata = get_args(annotation)
        if any(isinstance(reader, Reader) for reader in metadata):
            return [annotation]
        return _bare(inner)
    if origin in (Union, types.UnionType):
        return [bare for member in get_args(annotation) for bare in _bare(member) if bare is not type(None)]
    return [annotation]


def _is_model(annotation: Any) -> bool:
    return isinstance(annotation, type) and issubclass(annotation, BaseModel)


def _tags(model: type[BaseModel]) -> set[str]:
    return {
        word
        for annotation in keys_of(model).values()
        for bare in _bare(annotation)
        if get_origin(bare) is Literal
        for word in get_args(bare)
    }


def _steps_down(annotation: Any, step: str | int) -> list[Any]:
    """Return what lies below one step of pydantic's path; the step may be the tag of a union, and is then dropped."""
    choices = _bare(annotation)
    if len(choices) > 1:
        models = [model for model in choices if _is_model(model)]
        tagged = [model for model in models if step in _tags(model)]
        return tagged or [keys_of(model)[str(step)] for model in models if str(step) in keys_of(model)]
    (only,) = choices
    if _is_model(only):
        return [keys_of(only)[str(step)]] if str(step) in keys_of(only) else []
    if get_origin(only) is dict:
        return [get_args(only)[1]]
    if get_origin(only) is tuple:
        return [get_args(only)[0]]
    return []


def _annotation_at(annotation: Any, path: tuple[str | int, ...]) -> Any:
    current = annotation
    for step in path:
        below = _steps_down(current, step)
        if not below:
            return None
        current = below[0] if len(below) == 1 else Union[tuple(below)]  # noqa: UP007 - built at run time
    return current


def models_at(annotation: Any, path: tuple[str | int, ...]) -> Iterator[type[BaseModel]]:
    """Yield the models that may stand at a path of pydantic, tags of unions included."""
    found = _annotation_at(annotation, path)
    yield from (model for model in _bare(found) if _is_model(model))


def expected_at(annotation: Any, path: tuple[str | int, ...]) -> str:
    """Say in a few words what is expected at a path of pydantic, tags of unions included."""
    found = _annotation_at(annotation, path)
    return _said(found) if found is not None else "a value"


def _said(annotation: Any) -> str:
    choices = _bare(annotation)
    if all(_is_model(choice) for choice in choices) and choices:
        return f"a mapping with {listed(_needed(choices[0]), 'and')}"
    if all(get_origin(choice) is Literal for choice in choices):
        return listed(word for choice in choices for word in get_args(choice))
    only = choices[0]
    if get_origin(only) is Annotated:
        return next(reader.expected for reader in get_args(only)[1:] if isinstance(reader, Reader))
    if get_origin(only) is tuple:
        return f"a list, each item {_said(get_args(only)[0])}"
    if get_origin(only) is dict:
        return f"a mapping of ids, each {_said(get_args(only)[1])}"
    return "a mapping"


def _needed(model: type[BaseModel]) -> list[str]:
    required = [info.alias or name for name, info in model.model_fields.items() if info.is_required()]
    return required or list(keys_of(model))
