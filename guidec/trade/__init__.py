"""Words and values of the trade -> what is known of them: units, fasteners, materials, verbs and the law."""
