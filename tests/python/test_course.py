"""Courses: holes in their order, what is refused, and that documents and pickles come back equal."""

import copy
import json
import pickle

import pytest
import wideberth as wb

HOLES = [
    wb.Hole.sketch(par=4, length=380, name="First", stroke_index=2),
    wb.Hole.sketch(par=3, length=150, name="Second", stroke_index=3),
    wb.Hole.sketch(par=5, length=500, name="Third", stroke_index=1),
]
COURSE = wb.Course(HOLES, name="Heron Links", attribution="drawn by the club")


def test_a_course_is_its_holes():
    assert (COURSE.par, COURSE.numbers, COURSE.stroke_indexes) == (12, [1, 2, 3], [2, 3, 1])
    assert COURSE.length == pytest.approx(1030)
    assert list(COURSE) == HOLES == COURSE.holes and COURSE[-1] == HOLES[2] and COURSE[:2] == HOLES[:2]
    assert COURSE.hole(3) == HOLES[2] and len(COURSE) == 3
    assert repr(COURSE).splitlines()[0] == "Heron Links, 3 holes, par 12, 1030 yd"
    with pytest.raises(KeyError, match="no hole 4; there are 1, 2, 3"):
        COURSE.hole(4)
    with pytest.raises(IndexError):
        COURSE[3]
    tenth = wb.Course([wb.Hole.sketch(par=4, length=380, number=10)])
    assert tenth.numbers == [10] and tenth.stroke_indexes is None and tenth.attribution is None


def test_a_course_travels():
    for other in (copy.copy(COURSE), copy.deepcopy(COURSE), *(pickle.loads(pickle.dumps(COURSE, p)) for p in range(6))):
        assert other == COURSE and not other != COURSE  # noqa: SIM202
    assert wb.Course.from_json(COURSE.to_json()).to_json() == COURSE.to_json()
    assert wb.Course(HOLES, name="Heron Links") != COURSE and wb.Course(HOLES[:2], name="Heron Links") != COURSE
    assert COURSE != "Heron Links"
    with pytest.raises(TypeError):
        hash(COURSE)


def test_every_fault_is_told():
    with pytest.raises(wb.InputError) as refused:
        wb.Course([HOLES[0], HOLES[0].with_pin(back=1, right=1)], name=" ", attribution="")
    assert str(refused.value).splitlines() == [
        'name is " "; it must be text that is not empty',
        'attribution is ""; it must be text that is not empty',
        "holes[0] and holes[1] both have stroke index 2; those of a course must differ",
    ]
    with pytest.raises(wb.InputError, match="holes has 19 holes; it must have 1 to 18"):
        wb.Course([wb.Hole.sketch(par=3, length=150)] * 19)
    with pytest.raises(TypeError):
        wb.Course([1])
    document = json.loads(COURSE.to_json())
    document["holes"][1]["par"] = 9
    with pytest.raises(wb.InputError, match=r"holes\[1\]: par is 9; it must be 3 to 6"):
        wb.Course.from_json(json.dumps(document))
