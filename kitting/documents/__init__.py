"""Papers of kitting: row -> facts -> HTML -> PDF (shop.documents)."""
