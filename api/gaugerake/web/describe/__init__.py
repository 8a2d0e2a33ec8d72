"""The OpenAPI description and the documentation made from it."""
