"""Setting out: where each mark goes, how to find it, and how to see a slip before cutting."""
