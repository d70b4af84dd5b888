//! The numbers by which a link names a course at hand.
//!
//! A number never changes its course: the list grows at its end only. A course that gets another name gets it here, too;
//! one that is taken out of the library stays here with its name put in brackets, and links to it say that it is gone. A
//! test holds each number to what it stood for when it was given out.

use crate::fold::{NamedCourse, courses};

/// Names of the courses at hand, each in the place of its number.
pub(super) const KEYS: &[&str] = &[
    "Four, one fold",
    "Eight, two right-angle folds",
    "Eight, two parallel folds",
    "Twelve, letter fold and right angle",
    "Twelve, zig-zag and right angle",
    "Sixteen, three folds",
    "Sixteen, two parallel and right angle",
    "Sixteen, right angle and two parallel",
    "Sixteen, imposed from the centre",
    "Twenty-four, letter fold and two right angles",
    "Twenty-four, twelves without cutting",
    "Thirty-two, four right-angle folds",
    "Thirty-two, three right-angle and parallel",
    "Thirty-six, zig-zag, letter fold and right angle",
    "Sixty-four, five folds",
    "Folios quired, two",
    "Folios quired, nine",
    "Octavo, twelve and four of other matter",
    "Twelves, off-cut inset",
    "Twelves from the centre, off-cut inset",
    "Twenty-four, sixteen with eight inset",
    "Thirty-two, sixteen in sixteen",
    "Eighteens, cut and inset",
    "Forty-eight, thirty-two with sixteen inset",
    "Two eights",
    "Double sixteen, two sixteens",
    "Double sixteen, laid together before the last fold",
    "Quadruple sixteen, four sixteens",
    "Quadruple sixteen, two thirty-twos by insets",
    "Two thirty-twos",
    "Twenty-fours, two sections, off-cuts inset",
    "Sixty-four to a side, four thirty-twos",
    "Sixty-four to a side, eight sixteens",
    "Folio, half-sheet",
    "Quarto, two half-sheets worked together",
    "Octavo, half-sheet",
    "Octavo, half-sheet, tumbled",
    "Octavo, half-sheet from the centre",
    "Octavo, two quarters worked together",
    "Octavo, two quarters from the centre",
    "Twelves, half-sheet without cutting",
    "Twelves, half-sheet from the centre, off-cut inset",
    "Sixteens, half-sheet",
    "Sixteens, half-sheet, turned",
    "Eighteens, half-sheet of sixteen pages",
    "Eighteens, half-sheet with three single leaves",
    "Twenties, half-sheet of two sections",
    "Twenty-fours, half-sheet, off-cut inset",
    "Twenty-fours, half-sheet the sixteen way",
    "Twenty-fours, half-sheet without inset",
    "Twenty-fours, half-sheet without inset, off-cut above",
    "Twenty-fours, half-sheet without cutting",
    "Thirty-twos, half-sheet",
    "Thirty-twos, half-sheet, tumbled",
    "Thirty-twos, half-sheet of twenty, four and eight",
    "Thirty-twos, half-sheet of twenty, eight and four",
    "Thirty-sixes, half-sheet, cut and inset",
    "Forty-eights, half-sheet of two sections",
    "Sixty-fours, half-sheet",
    "Ninety-sixes, half-sheet of six sections",
    "Hundred and twenty-eights, half-sheet of eight sections",
    "Come-and-go, two eights head to head",
    "Come-and-go, two sixteens head to head",
    "Come-and-go, two thirty-twos head to head",
    "Six, letter fold",
    "Six, zig-zag fold",
    "Eight, gate fold",
    "Eight, accordion fold",
    "Eight, letter fold of four",
    "Oblong four, one fold",
    "Oblong eight, two right-angle folds",
    "Oblong sixteen, two parallel and right angle",
    "Oblong sixteen, three folds",
    "Oblong thirty-two, four right-angle folds",
    "Right to left, eight",
    "Right to left, sixteen",
    "Right to left, thirty-two",
];

/// The number of a course at hand. Courses whose pages lie come with a name of their own.
pub(super) fn key_of(name: &str) -> Option<u32> {
    KEYS.iter().position(|n| *n == name).map(|at| at as u32)
}

/// The course of a number; `None` if none has it, or not any more.
pub(super) fn course_of(key: u32) -> Option<NamedCourse> {
    let name = KEYS.get(key as usize)?;
    courses().into_iter().find(|named| named.name == *name)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::link::bits::Writer;
    use crate::link::course::write_course;
    use crate::link::crc::crc32;

    /// What each number stood for when it was given out: the CRC-32 of its course as links write it. Lines are added, and
    /// none is ever changed.
    const GIVEN_OUT: &[u32] = &[
        0xd000_19f5,
        0xde35_a4c8,
        0xf2b4_fabc,
        0x2230_ea4d,
        0xfd76_dcbe,
        0xa402_ab4c,
        0xfba2_61d2,
        0xf502_315c,
        0x7b8c_4435,
        0x3578_470f,
        0x23cc_cf11,
        0x4095_a495,
        0x76a0_1753,
        0x43ea_f410,
        0x0696_d2ab,
        0xd4fc_e500,
        0xf1b1_ecfe,
        0xbb29_e8fc,
        0x7e63_7a3d,
        0x9f1f_6680,
        0xfe73_0480,
        0x2862_2672,
        0x9beb_1dca,
        0x3852_b631,
        0x480d_9e77,
        0xc726_fb56,
        0xcc14_e9ed,
        0x9f6a_f76c,
        0xe857_e71c,
        0x6771_7a73,
        0x3afd_05ba,
        0x6473_9535,
        0xd260_66ea,
        0x3abd_9e95,
        0xcf7b_a55b,
        0x7c45_1928,
        0x8d85_9db2,
        0x064f_fda2,
        0xec82_c00e,
        0xb068_151a,
        0x2dd5_1bbb,
        0x2f98_5cd1,
        0xfee7_97cb,
        0x9ca0_ea10,
        0x7979_7915,
        0x3298_152a,
        0xba0f_5c5c,
        0x1273_dac4,
        0x9033_d510,
        0x3101_c4f0,
        0xc5b2_7cb8,
        0x61ed_6d6d,
        0x753b_a79d,
        0xdc40_3014,
        0x7497_a8be,
        0xe182_e3e6,
        0x517e_6ede,
        0x6704_f846,
        0xb952_cbff,
        0xe5f4_4f28,
        0x51ec_2358,
        0x950c_608d,
        0x3f26_b8cf,
        0xade3_6f3f,
        0xdf8c_b97b,
        0x00ca_8f88,
        0x6d7d_d882,
        0xc166_46e4,
        0xf740_8e92,
        0xd000_19f4,
        0xde35_a4c9,
        0xfba2_61d3,
        0xa402_ab4d,
        0x4095_a494,
        0xef87_1224,
        0x400a_22fd,
        0x030c_d933,
    ];

    #[test]
    fn every_course_has_a_number_that_never_stands_for_another() {
        for named in courses() {
            assert!(key_of(named.name).is_some(), "add at the end: \"{}\"", named.name);
        }
        assert_eq!(KEYS.len(), GIVEN_OUT.len(), "add the check of each new course: {:?}", checks());
        let changed: Vec<_> = (0..).zip(GIVEN_OUT.iter().zip(checks())).filter(|(_, (a, b))| **a != *b).collect();
        assert_eq!(changed, [], "the course of a number has changed");
    }

    fn checks() -> Vec<u32> {
        let check = |key: usize| {
            let mut out = Writer::default();
            let named = course_of(key as u32)?;
            write_course(&mut out, &named.course)?;
            Some(crc32(out.done(), 8) ^ u32::from(named.oblong))
        };
        (0..KEYS.len()).map(|key| check(key).unwrap_or(0)).collect()
    }
}
