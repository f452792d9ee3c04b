"""Keys over plain questions: what a key costs, the key of least cost, how a reader fares with it. Nothing here knows a workspace."""
