"""What in a case log could tell who a patient or a colleague is; looked for before all else."""
