"""Weights of the three networks in a folder, one file each."""

from pathlib import Path

import torch

from sample_images.training.network import Network, new_networks


def load_networks(folder: Path) -> dict[str, Network]:
    """Return the networks with the ``.pt`` weights that the folder has."""
    networks = new_networks()
    for name, network in networks.items():
        path = folder / f"{name}.pt"
        if path.exists():
            network.load_state_dict(torch.load(path, map_location="cpu"))
    return networks


def save_networks(networks: dict[str, Network], folder: Path) -> None:
    """Write ``NAME.pt`` for each."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, network in networks.items():
        torch.save(network.state_dict(), folder / f"{name}.pt")
