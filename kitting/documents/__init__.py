"""Paper of kitting: a frozen row -> facts -> HTML -> PDF (shop.documents)."""
