//! stub
#![allow(missing_docs, clippy::all, clippy::pedantic)]
use crate::guide::*;
use crate::report::*;
pub const CHECKS: &[&Check] = &[];
#[derive(Debug, Clone, Copy)]
pub enum CautionKind {
    A,
}
#[derive(Debug, Clone)]
pub struct Statement {
    pub code: String,
    pub text: String,
    pub paints: Vec<String>,
}
#[derive(Debug, Clone, Default)]
pub struct StepCautions {
    pub kinds: Vec<CautionKind>,
    pub statements: Vec<Statement>,
    pub notes: Vec<String>,
}
impl StepCautions {
    pub fn is_empty(&self) -> bool {
        self.kinds.is_empty()
    }
}
#[derive(Debug, Clone, Default)]
pub struct SchemeCautions {
    pub kinds: Vec<(CautionKind, Vec<usize>)>,
    pub notes: Vec<(usize, String)>,
}
pub struct Text {
    pub title: String,
    pub text: String,
}
pub struct CautionTexts {
    pub closing: String,
    pub cautions: String,
    pub for_steps: String,
    pub author_note: String,
    pub statements: String,
}
impl CautionTexts {
    pub fn of(_: &str) -> &'static Self {
        todo!()
    }
    pub fn text(&self, _: CautionKind) -> &Text {
        todo!()
    }
}
pub fn of_step(_: &Scheme, _: &Step) -> StepCautions {
    StepCautions::default()
}
pub fn of_scheme(_: &Scheme) -> SchemeCautions {
    SchemeCautions::default()
}
pub fn check(_: &Guide) -> Vec<Finding> {
    vec![]
}
pub fn statement(_: &str) -> Option<&'static str> {
    None
}
