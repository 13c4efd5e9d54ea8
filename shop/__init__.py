"""Project package and base app: shop, people, house rules, customers, vehicles, labour, jobs. Imports no other app."""
