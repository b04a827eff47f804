"""Why a top is not larger: what it touches, which limits it meets, what each defect costs."""
