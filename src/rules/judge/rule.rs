//! What a rule is.

use super::look::Look;
use super::told::Told;
use crate::report::Check;

/// One rule.
#[derive(Debug)]
pub struct Rule {
    /// What is checked, and why.
    pub check: Check,
    /// What it says about a scheme that breaks it, word for word as in one of its cases.
    pub example: &'static str,
    /// Whether another order of the same steps could mend it.
    pub ordering: bool,
    /// Looks at one step.
    pub look: fn(&Look<'_>, &mut Told),
}
